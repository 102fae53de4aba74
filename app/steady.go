package main

import "time"

// began is when the program began, by Go's own steady clock.
var began = time.Now()
