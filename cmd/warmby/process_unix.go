//go:build unix

package main

import (
	"errors"
	"syscall"
)

// alive reports whether there is a process of a number on this machine.
func alive(process int) bool {
	return !errors.Is(syscall.Kill(process, 0), syscall.ESRCH)
}
