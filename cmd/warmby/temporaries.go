package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
)

// temporaries are files under passing names, so that an interrupt can take
// them away from another goroutine.
type temporaries struct {
	mu    sync.Mutex
	names []string
	count int
}

// create makes a new file in a folder. Names are numbered and not drawn, and
// taken ones are passed over.
func (t *temporaries) create(folder string, mode fs.FileMode) (*os.File, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for {
		t.count++
		name := filepath.Join(folder, fmt.Sprintf(".warmby-%d-%d.tmp", os.Getpid(), t.count))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err == nil {
			t.names = append(t.names, name)
		}
		return f, err
	}
}

// remove takes away one file.
func (t *temporaries) remove(name string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	os.Remove(name)
	t.names = slices.DeleteFunc(t.names, func(n string) bool { return n == name })
}

// leftBehind returns the passing names in a folder whose processes are gone:
// they were killed.
func leftBehind(folder string) (list []string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	for _, entry := range entries {
		var process, number int
		name := entry.Name()
		_, err := fmt.Sscanf(name, ".warmby-%d-%d.tmp", &process, &number)
		if err == nil && name == fmt.Sprintf(".warmby-%d-%d.tmp", process, number) && !alive(process) {
			list = append(list, filepath.Join(folder, name))
		}
	}
	return list
}

// removeAll takes away the passing names that are still there.
func (t *temporaries) removeAll() {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, name := range t.names {
		os.Remove(name)
	}
	t.names = nil
}
