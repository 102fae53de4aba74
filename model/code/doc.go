// Package code makes two-dimensional codes of texts and reads them out of pictures:
// QR codes of ISO/IEC 18004 with error correction of level M, which bears about 15 %
// of damage.
//
// Contract:
//   - [Encode] gives the modules of a code, without the quiet zone about it;
//   - [Read] gives the texts of all codes that it finds in a picture, each once. It
//     says nothing of what they mean: a code comes from anybody, and whoever asked
//     has to look at it;
//   - no picture makes it panic, and what it does is bounded by the picture's size.
//
// Units: modules; pixels.
package code
