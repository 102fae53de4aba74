// Package paper makes the pages that a person prints and takes along: the set-up
// sheet, the kit list, the paper of a case, the care calendar and others, as PDF.
//
// Contract:
//   - [Write] is all that a window or a verb needs: it asks the keeper, lays the
//     pages out and writes them. [SetUpSheet] and [KitList] do the same from an
//     [Input] that was gathered before;
//   - a document is a function of its input: the same input gives the same bytes.
//     No clock is read; the day on it is that of the record;
//   - pictures are made anew at print resolution, so nothing of where they were
//     taken goes along; their marks are vectors above them;
//   - text is text (it can be selected and searched), drawings are vectors, the
//     program's own type is embedded, and nothing lies outside the margins;
//   - what belongs together stays on one page; every page says which of how many
//     it is;
//   - nothing is told by colour alone, so a black and white print says as much;
//   - text of any length wraps; what no font can show is shown as a box.
//
// Nouns: a stack is a column of lines and drawings of known height; a block is
// what is never parted by the end of a page; the flow sets blocks page after page.
//
// Units: millimetres from the page's top left corner, y downwards; sizes of type
// in points of 1/96 inch, as everywhere in the program.
package paper
