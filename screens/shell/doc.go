// Package shell is the frame around the places: the bar at the top, the menu
// with its shortcuts, the line that offers the way back, preferences, panels of
// settings, safety notes and sources. It alone knows every place.
package shell
