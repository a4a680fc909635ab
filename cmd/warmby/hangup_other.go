//go:build !unix

package main

import "os"

// hangups is empty where terminals send no signals.
var hangups []os.Signal
