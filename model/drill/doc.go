// Package drill is what the tests called drills share: crashes, full disks, damage,
// wrong clocks, each tried many times; and how the reference tables of testdata are read.
//
// Contract:
//
//   - Only tests import it: nothing of it is in the program.
//   - Count chooses between the count that goes with every test and the one listed
//     for a release, which DRIPLOOP_DRILL=1 asks for.
//   - Tally notes what a drill did; the table at the end of "make drill" is printed
//     from these notes.
//   - Run starts the test's own program once more, in a folder of which little or
//     nothing can be written where Narrow says so.
package drill
