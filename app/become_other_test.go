//go:build !unix

package main

import "errors"

func become(int) error { return errors.New("not on this system") }
