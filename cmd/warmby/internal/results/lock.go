package results

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"warmby/cmd/warmby/internal/mistake"
)

// folderLock keeps a folder of results for one process, from before anything is
// written until the folder has its name and what it replaces is gone. The lock
// is on a file beside the folder, NAME.lock, which says who holds it; it is
// taken away at the end, and what a killed process left of it is taken over.
type folderLock struct {
	file *os.File
}

// heldError is a lock that another process has.
type heldError struct{ holder string }

func (e *heldError) Error() string { return "held by " + e.holder }

// lockFolder takes the lock of a folder. The error is a [heldError] when another
// process has it.
func lockFolder(folder string) (*folderLock, error) {
	path := folder + ".lock"
	for {
		f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
		if err != nil {
			return nil, fmt.Errorf("cannot make %s: %w", path, mistake.Reason(err))
		}
		if !lock(f) {
			defer f.Close()
			return nil, &heldError{holderIn(f)}
		}
		// The one before may have taken the file away between the two steps; then
		// this is a lock of nothing.
		if !isAt(f, path) {
			f.Close()
			continue
		}
		f.Truncate(0)
		f.WriteAt([]byte(thisProcess()+"\n"), 0) // for people; the lock holds without it
		return &folderLock{f}, nil
	}
}

// release gives the folder to others.
func (l *folderLock) release() {
	if l.file != nil {
		err := os.Remove(l.file.Name())
		l.file.Close()
		if err != nil && !errors.Is(err, fs.ErrNotExist) { // not every system removes an open file
			os.Remove(l.file.Name())
		}
		l.file = nil
	}
}

// isAt reports whether a path leads to a file that is open.
func isAt(f *os.File, path string) bool {
	open, errOpen := f.Stat()
	there, errThere := os.Stat(path)
	return errOpen == nil && errThere == nil && os.SameFile(open, there)
}

// thisProcess says who holds a lock: "process 4711 on ridge".
func thisProcess() string {
	text := fmt.Sprintf("process %d", os.Getpid())
	if host, err := os.Hostname(); err == nil {
		text += " on " + host
	}
	return text
}

// holderIn reads who wrote its name into a lock.
func holderIn(f *os.File) string {
	text, _ := io.ReadAll(io.LimitReader(f, 200))
	if line, _, whole := strings.Cut(string(text), "\n"); whole {
		return line
	}
	return "a process that did not say which it is"
}

// makeParents makes the folders in which another is to be made.
func makeParents(folder string) error {
	if err := os.MkdirAll(filepath.Dir(folder), 0o777); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", filepath.Dir(folder), mistake.Reason(err))
	}
	return nil
}
