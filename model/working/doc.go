// Package working is the trail behind every figure: what was asked, what was
// given, each equation with its symbols and intermediate values, the result with
// its spread, the range it holds in, the sources and the assumptions.
//
// Nouns:
//   - a Trail is one worked calculation. Pages, paper and the command line print
//     the same Trail;
//   - a Check is a limit that was looked at: demand against capacity, as a bar;
//   - a Finding is something to tell a person, as a code with typed values;
//   - a Refusal is an error: an input outside what a formula accepts;
//   - a Source is a citation, registered once by the package that relies on it,
//     with its Origin: how sure we are of it.
//
// The package knows no language. A Key names a message that the program keeps in
// every language it offers; a test holds every Key in the code against the files.
// By convention the first part of a key says what it is: "q." a quantity's
// name, "ask." a question, "assume." an assumption, "find." a finding, "refuse."
// a refusal, "word." a fragment put into another message.
package working
