// Package assets holds the files that are built into the program: type and
// icon. It knows nothing of the rest of the program and imports nothing of it.
//
// The type family is Atkinson Hyperlegible Next, Copyright 2020-2024 The
// Atkinson Hyperlegible Next Project Authors, under the SIL Open Font License
// 1.1; the licence text is embedded as [TypeLicence] and must go with every
// copy of the program. The icon is drawn by the program's own scene package
// (see its test) and belongs to the program.
//
// The byte slices are shared: read them, never write to them.
package assets
