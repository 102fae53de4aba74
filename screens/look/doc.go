// Package look is the appearance of the program: colours by role, type, sizes
// and the colours of safety signs.
//
// A colour is asked for by its role ([Name]) and never written as a number
// elsewhere. [Color] gives the value outside of Fyne (drawings, PDF, PNG);
// [Theme] gives the same values to Fyne, where a Name serves directly as a
// fyne.ThemeColorName. Each role has a light and a dark value: the dark variant
// is a night version of the same ink drawing.
//
// Which role may stand on which is not a matter of taste: [Pairs] lists every
// permitted combination, [Permits] answers for one, and the package's tests
// compute the contrast of every listed pair in both variants after WCAG 2.2
// (success criteria 1.4.3 and 1.4.11). A combination that is not in Pairs is
// not used.
//
// Sizes are in points as Fyne means them: one point is one device-independent
// pixel on the screen and 1/96 inch on paper.
package look
