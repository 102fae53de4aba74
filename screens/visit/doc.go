// Package visit is the place where a keeper makes a visit slip: which days and what of
// them, what private things, what to ask; as a file or as a paper. It shows what the
// slip will hold before anything is handed over.
package visit
