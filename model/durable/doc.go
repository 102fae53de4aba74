// Package durable writes files so that a crash, a full disk or a power cut
// leaves either the old file or the complete new one, and keeps two copies of
// the program out of one data folder.
//
// Contract:
//
//   - WriteFile and WriteFrom replace a file in one step: a temporary file in
//     the same folder, its length compared, fsync, close, rename, fsync of the
//     folder. A reader never meets half a file.
//   - Publish is the second half of that, for a file some other writer (a
//     database engine) has already made.
//   - Acquire takes the lock of a data folder. The operating system frees it
//     when the process ends, however it ends: there is no stale lock.
//   - Hold keeps a file open and tells whether its name still stands for it, and
//     what it holds.
//   - Ring and Heard let a second start be heard by the program that holds the lock.
//   - Roots lists where the paths of this machine begin.
//   - Free and Writable tell what a folder can take before work is begun.
//
// Nouns: a temporary file is one whose name starts with TempPrefix; Sweep
// removes those that a crash left behind. Sizes are bytes. No function reads a
// clock. Every error names the path it is about.
//
// Limits of the promise: a disk that reports a flush it has not made cannot be
// helped from here, nor can a network share whose server ignores locks. On
// Windows a folder cannot be flushed; the rename is written through instead.
package durable
