//go:build unix

package main

import (
	"os"
	"syscall"
)

// hangups are the signals that tell that the terminal is gone.
var hangups = []os.Signal{syscall.SIGHUP}
