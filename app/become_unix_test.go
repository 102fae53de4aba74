//go:build unix

package main

import "syscall"

// become makes this process that of another account, for good.
func become(n int) error {
	if err := syscall.Setgroups(nil); err != nil {
		return err
	}
	if err := syscall.Setgid(n); err != nil {
		return err
	}
	return syscall.Setuid(n)
}
