//go:build unix

package main

import (
	"errors"
	"os"
	"syscall"
)

// alive reports whether there is a process of a number on this machine.
func alive(process int) bool {
	return !errors.Is(syscall.Kill(process, 0), syscall.ESRCH)
}

// lock keeps a file for this process until it is closed, and reports whether no
// other process has it. File systems that know no locks let everybody in.
func lock(f *os.File) bool {
	err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	return !errors.Is(err, syscall.EWOULDBLOCK)
}
