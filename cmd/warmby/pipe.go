//go:build !js

package main

import (
	"os/signal"
	"syscall"
)

// ignoreClosedPipes keeps a closed pipe from ending the process by a signal.
func ignoreClosedPipes() { signal.Ignore(syscall.SIGPIPE) }
