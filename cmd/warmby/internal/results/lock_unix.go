//go:build unix

package results

import (
	"errors"
	"os"
	"syscall"
)

// lock keeps a file for this process until it is closed, and reports whether no
// other process has it. File systems that know no locks let everybody in.
func lock(f *os.File) bool {
	err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	return !errors.Is(err, syscall.EWOULDBLOCK)
}
