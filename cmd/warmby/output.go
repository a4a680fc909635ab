package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
)

// outFile is a file that a command writes.
type outFile struct {
	path string
	data []byte
}

// mayWrite reports as an error what would keep files from being written. A
// command asks before it does the work, so that nobody waits for a result
// that then has no place to go.
func (e *environment) mayWrite(force bool, paths ...string) error {
	seen := map[string]bool{}
	for _, path := range paths {
		clean := filepath.Clean(path)
		if seen[clean] {
			return mistake.Usagef("two outputs are to be written to %q", path)
		}
		seen[clean] = true
		t, err := destination(path, force)
		if err != nil {
			return err
		}
		if err := e.tryFolder(path, t); err != nil {
			return err
		}
	}
	return nil
}

// tryFolder makes a file beside the one to be written and takes it away again:
// only that tells whether a folder may be written to.
func (e *environment) tryFolder(path string, t target) error {
	if t.through {
		return nil
	}
	f, err := e.temps.create(filepath.Dir(t.path), 0o666)
	if err != nil {
		return wrapWrite(path, err)
	}
	f.Close()
	e.temps.remove(f.Name())
	return nil
}

// tell prints an answer and then writes the files that go with it, so that a
// file that cannot be written after all loses nobody the answer.
func (e *environment) tell(answer, files func() error) error {
	printed := answer()
	if full := e.flush(); printed == nil && full != nil {
		printed = fullOutput(full)
	}
	if err := files(); err != nil {
		return err
	}
	return printed
}

// writeFiles writes several files, or none of them: all are checked, then all
// are written under passing names, and only then do they get their own. What
// exists is overwritten only with force; a device or a pipe is written to as
// it is.
func (e *environment) writeFiles(force bool, files ...outFile) (err error) {
	paths := make([]string, len(files))
	for i, f := range files {
		paths[i] = f.path
	}
	if err := e.mayWrite(force, paths...); err != nil {
		return err
	}
	var placed []string // new files, to be taken back if a later one fails
	defer func() {
		e.temps.removeAll()
		if err != nil {
			for _, path := range placed {
				os.Remove(path)
			}
		}
	}()
	temps := make([]string, len(files))
	for i, f := range files {
		if temps[i], err = e.writeAside(f, force); err != nil {
			return fmt.Errorf("cannot write %s: %w", f.path, mistake.Reason(err))
		}
	}
	for i, f := range files {
		if temps[i] == "" {
			if err = writeThrough(f); err != nil {
				return fmt.Errorf("cannot write %s: %w", f.path, mistake.Reason(err))
			}
			continue
		}
		isNew, err := place(temps[i], f.path, force)
		if err != nil {
			return err
		}
		if isNew {
			placed = append(placed, f.path)
		}
	}
	e.nameLeftBehind(paths)
	return nil
}

// nameLeftBehind names what killed runs left beside files that were written. It
// is not removed: a process on another machine may be at work on it.
func (e *environment) nameLeftBehind(paths []string) {
	var folders []string
	for _, path := range paths {
		if folder := filepath.Dir(path); !slices.Contains(folders, folder) {
			folders = append(folders, folder)
		}
	}
	for _, folder := range folders {
		for _, name := range leftBehind(folder) {
			e.note("a run that was killed left %s; it can be removed", name)
		}
	}
}

// target is where a file ends up.
type target struct {
	path    string // symbolic links followed
	exists  bool
	mode    fs.FileMode
	through bool // a device or pipe, which is written to and never replaced
}

func destination(path string, force bool) (target, error) {
	if path == "" {
		return target{}, mistake.Usagef("an output needs a file name, got an empty one")
	}
	if path == "-" {
		return target{}, &mistake.Usage{What: "outputs are files, and - is none", Cure: "/dev/stdout is standard output, ./- a file of that name"}
	}
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return target{path: path, mode: 0o666}, checkFolder(path)
	}
	if err != nil {
		return target{}, fmt.Errorf("cannot write %s: %w", path, mistake.Reason(err))
	}
	if info.IsDir() {
		return target{}, mistake.WithHint(fmt.Errorf("cannot write %s: it is a folder", path), "give the name of a file in it")
	}
	t := target{path: path, exists: true, mode: info.Mode().Perm(), through: !info.Mode().IsRegular()}
	if !t.through && !force {
		return t, existsError(path)
	}
	if t.path, err = filepath.EvalSymlinks(path); err != nil {
		return t, fmt.Errorf("cannot write %s: %w", path, mistake.Reason(err))
	}
	return t, nil
}

func existsError(path string) error {
	return mistake.WithHint(mistake.Exists{Path: path}, "give another name, or --force to overwrite it")
}

func checkFolder(path string) error {
	folder := filepath.Dir(path)
	info, err := os.Stat(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return mistake.WithHint(fmt.Errorf("cannot write %s: there is no folder %s", path, folder), "make the folder first: mkdir -p %q", folder)
	case err != nil:
		return fmt.Errorf("cannot write %s: %w", path, mistake.Reason(err))
	case !info.IsDir():
		return fmt.Errorf("cannot write %s: %s is not a folder", path, folder)
	}
	return nil
}

// writeAside writes a file under a passing name beside its own and returns
// that name, or "" for what is written straight through.
func (e *environment) writeAside(f outFile, force bool) (string, error) {
	t, err := destination(f.path, force)
	if err != nil || t.through {
		return "", err
	}
	temp, err := e.temps.create(filepath.Dir(t.path), t.mode)
	if err != nil {
		return "", err
	}
	_, err = temp.Write(f.data)
	if err == nil && t.exists {
		err = temp.Chmod(t.mode)
	}
	if err == nil {
		err = temp.Sync()
	}
	return temp.Name(), errors.Join(err, temp.Close())
}

// place gives a file its own name and reports whether there was none of that
// name before. Without force the name must still be free: a link fails if
// somebody took it meanwhile, where a rename would not.
func place(temp, path string, force bool) (isNew bool, err error) {
	t, err := destination(path, force)
	if err != nil {
		return false, err
	}
	if force {
		err = os.Rename(temp, t.path)
		return !t.exists && err == nil, wrapWrite(path, err)
	}
	err = os.Link(temp, t.path)
	if err == nil {
		return true, nil
	}
	if errors.Is(err, fs.ErrExist) {
		return false, existsError(path)
	}
	// No links on this file system: take the name, then fill it.
	claim, err := os.OpenFile(t.path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return false, existsError(path)
	}
	if err != nil {
		return false, wrapWrite(path, err)
	}
	claim.Close()
	if err := os.Rename(temp, t.path); err != nil {
		os.Remove(t.path)
		return false, wrapWrite(path, err)
	}
	return true, nil
}

func wrapWrite(path string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("cannot write %s: %w", path, mistake.Reason(err))
}

func writeThrough(f outFile) error {
	out, err := os.OpenFile(f.path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = out.Write(f.data)
	return errors.Join(err, out.Close())
}

// checkPictures refuses pictures that cannot be written, before anything is
// played.
func (e *environment) checkPictures(paths []string, force bool) error {
	for i, path := range paths {
		if _, err := ask.PictureFormat(path); err != nil {
			return err
		}
		if slices.Contains(paths[:i], path) {
			return mistake.Usagef("two pictures cannot both be written to %s", path)
		}
	}
	return e.mayWrite(force, paths...)
}
