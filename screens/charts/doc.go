// Package charts is the place where what was measured is seen over time: small
// charts under one another on one time axis, of one tank or of several, with
// what happened marked on them; the same as a table; saved as a picture or a
// table for elsewhere.
//
// Contract: the page asks keeper.Traces and puts it into chart.Specs; a value
// that is none (not detected, over the kit's range) is an open marker with a
// stem, a long silence breaks a line, and each chart has one y axis.
package charts
