package results

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/sim/batch"
)

// Journal is the file that holds what has been played, in a folder of a
// shard and in that of a batch that is not finished.
const Journal = "journal"

// PackageFile is the file that is written last, when all others are there.
const PackageFile = "datapackage.json"

// resultNames are the files that a folder of results may hold.
var resultNames = []string{
	Journal, "runs.csv", "runs.parquet", "tasks.csv", "tasks.parquet",
	"people.csv", "people.parquet", "fuel.csv", "fuel.parquet", "draws.csv", "draws.parquet", "cold.csv", "cold.parquet", "points.csv",
	"summary.json", PackageFile, "methods.txt", "scenario.yaml",
}

// Folder is a folder of results in the making. All is written into a folder
// beside it, whose name ends in .part, and which gets its own name when all of
// it is there. The journal in it is synced to the disk with every chunk, so
// that whatever ends the program loses no more than the chunks being played.
// From open to close the folder is this process's alone.
type Folder struct {
	Path, Part string // its name, and that of the folder to work in
	Runs       int64  // in the journal
	// BeforeNaming is called when all is written and the folder has not got its
	// name yet; nil for nothing. Tests hold the moment open with it.
	BeforeNaming func()

	lock    *folderLock
	journal *os.File
	offset  int64 // where the last whole chunk in the journal ends
}

// A link to a folder stays one: it is what it leads to that is written.
func NewFolder(path string) *Folder {
	path = filepath.Clean(path)
	if info, err := os.Lstat(path); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		if to, err := filepath.EvalSymlinks(path); err == nil {
			path = to
		}
	}
	return &Folder{Path: path, Part: path + ".part"}
}

func (o *Folder) JournalPath() string { return filepath.Join(o.Part, Journal) }

// Open takes the folder for this process and makes the one to work in. With
// resume, done reports that there is nothing to go on with since the folder has
// got its own name already. What was opened is closed by close.
func (o *Folder) Open(resume, force bool) (done bool, err error) {
	if base := filepath.Base(o.Path); base == "." || base == ".." || base == string(filepath.Separator) {
		return false, &mistake.Usage{What: fmt.Sprintf("--out %s: expected the name of a folder to make", o.Path), Cure: "such as --out results"}
	}
	// Looked at first, so that nothing is made where nothing can be written.
	if done, err := o.look(resume, force); done || err != nil {
		return done, err
	}
	if err := makeParents(o.Path); err != nil {
		return false, err
	}
	if o.lock, err = lockFolder(o.Path); err != nil {
		return false, o.lockError(err)
	}
	if done, err = o.look(resume, force); err == nil && !done {
		err = o.makePart(resume, force)
	}
	if done || err != nil {
		o.Close()
	}
	return done, err
}

// look reports whether the folder is finished, or what else stands in the way.
func (o *Folder) look(resume, force bool) (done bool, err error) {
	begun, err := isFolder(o.Part)
	if err != nil {
		return false, err
	}
	there, err := isFolder(o.Path)
	if err != nil {
		return false, err
	}
	if there && resume && !begun && !isEmpty(o.Path) {
		return true, nil
	}
	return false, o.MayReplace(force)
}

// makePart makes the folder to work in, or takes over what is left of one.
func (o *Folder) makePart(resume, force bool) error {
	begun, err := isFolder(o.Part)
	if err != nil {
		return err
	}
	if begun && !resume && !force {
		return mistake.WithHint(fmt.Errorf("a batch was begun in %s and not finished", o.Part),
			"--resume goes on with it; --force begins anew and throws it away")
	}
	if begun {
		return onlyResults(o.Part)
	}
	if err := os.Mkdir(o.Part, 0o777); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", o.Part, mistake.Reason(err))
	}
	return nil
}

// lockError says who is at work in the folder.
func (o *Folder) lockError(err error) error {
	var held *heldError
	if !errors.As(err, &held) {
		return err
	}
	return mistake.WithHint(fmt.Errorf("another warmby is at work in %s: %s", o.Path, held.holder), "wait for it, or give another --out")
}

// MayReplace reports as an error what stands where the folder is to be: anything
// without force, and with it what is no folder of results.
func (o *Folder) MayReplace(force bool) error {
	there, err := isFolder(o.Path)
	if err != nil || !there || isEmpty(o.Path) {
		return err
	}
	if !force {
		return mistake.WithHint(mistake.Exists{Path: o.Path}, "give another --out, or --force to replace it")
	}
	return onlyResults(o.Path)
}

// onlyResults refuses a folder with files that warmby does not write: it would
// be lost.
func onlyResults(folder string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return fmt.Errorf("cannot read %s: %w", folder, mistake.Reason(err))
	}
	for _, entry := range entries {
		if !slices.Contains(resultNames, entry.Name()) || entry.IsDir() {
			return mistake.WithHint(fmt.Errorf("%s holds %q, which is none of the files of a batch, and is not replaced", folder, entry.Name()), "give another --out")
		}
	}
	return nil
}

func isFolder(path string) (bool, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if to, err := os.Readlink(path); err == nil {
			return false, mistake.WithHint(fmt.Errorf("cannot write %s: it is a link to %s, which is not there", path, to), "make that folder, or give another --out")
		}
		return false, nil
	case err != nil:
		return false, fmt.Errorf("cannot write %s: %w", path, mistake.Reason(err))
	case !info.IsDir():
		return false, mistake.WithHint(fmt.Errorf("cannot make the folder %s: there is a file of that name", path), "give another --out")
	}
	return true, nil
}

func isEmpty(folder string) bool {
	entries, err := os.ReadDir(folder)
	return err == nil && len(entries) == 0
}

// OpenJournal opens the journal under its header. With resume the whole chunks
// of one that is there are added to the course, and what follows them is cut
// off; kept reports whether there were any.
func (o *Folder) OpenJournal(header []byte, course *batch.Course, resume bool) (kept bool, err error) {
	f, err := os.OpenFile(o.JournalPath(), os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return false, fmt.Errorf("cannot write %s: %w", o.JournalPath(), mistake.Reason(err))
	}
	o.journal = f
	if resume {
		if err := o.readBack(header, course); err != nil {
			return false, err
		}
	}
	o.Clear(Journal)
	if err := o.journal.Truncate(o.offset); err != nil {
		return false, fmt.Errorf("cannot write %s: %w", o.JournalPath(), mistake.Reason(err))
	}
	o.Runs = course.Done()
	if o.offset > 0 {
		return true, nil
	}
	if err := o.Append(header, 0); err != nil {
		return false, fmt.Errorf("cannot write %s: %w", o.JournalPath(), mistake.Reason(err))
	}
	syncFolder(o.Part)
	return false, nil
}

// readBack adds the whole chunks of the journal to the course and finds where
// they end.
func (o *Folder) readBack(header []byte, course *batch.Course) error {
	r, err := batch.NewReader(o.journal)
	if errors.Is(err, batch.ErrNoJournal) {
		return o.cutShort(header)
	}
	if err != nil {
		return fmt.Errorf("cannot read %s: %w", o.JournalPath(), mistake.Reason(err))
	}
	want, err := batch.NewReader(bytes.NewReader(header))
	if err != nil {
		return err
	}
	if err := o.sameBatch(&want.Header, &r.Header); err != nil {
		return err
	}
	for {
		c, err := r.Chunk()
		if errors.Is(err, io.EOF) || errors.Is(err, batch.ErrTorn) {
			break
		}
		if err == nil {
			err = course.Add(c)
		}
		if err != nil {
			return &mistake.Input{What: fmt.Sprintf("%s: %v", o.JournalPath(), err), Cure: "begin anew with --force"}
		}
	}
	o.offset = r.Offset()
	return nil
}

// cutShort tells a journal whose header was not yet whole when what wrote it was
// killed, in which nothing is lost, from one that is damaged.
func (o *Folder) cutShort(header []byte) error {
	there := make([]byte, len(header))
	n, err := o.journal.ReadAt(there, 0)
	if err != nil && !errors.Is(err, io.EOF) {
		return fmt.Errorf("cannot read %s: %w", o.JournalPath(), mistake.Reason(err))
	}
	if n < len(header) && bytes.HasPrefix(header, there[:n]) {
		return nil
	}
	return &mistake.Input{What: fmt.Sprintf("%s: its first line is damaged, and what it holds cannot be told", o.JournalPath()), Cure: "keep a copy if it may be mended; begin anew with --force in place of --resume"}

}

// sameBatch refuses to go on with another batch.
func (o *Folder) sameBatch(want, there *batch.Header) error {
	a, err := readJob(want.Job)
	if err != nil {
		return err
	}
	b, err := readJob(there.Job)
	if err != nil {
		return &mistake.Input{What: fmt.Sprintf("%s: %v", o.JournalPath(), err), Cure: "begin anew with --force"}
	}
	why := a.Differs(b, "asked for", "begun")
	if want.Shard != there.Shard {
		why = fmt.Sprintf("shard: %v asked for, %v begun", want.Shard, there.Shard)
	}
	if why == "" {
		return nil
	}
	return mistake.WithHint(fmt.Errorf("cannot go on with %s: another batch was begun there (%s)", o.Part, why),
		"give the flags that it was begun with, another --out, or --force without --resume to begin anew")
}

// Append adds bytes to the journal and has them on the disk when it returns.
// What could not be written whole is cut off again.
func (o *Folder) Append(b []byte, runs int64) error {
	_, err := o.journal.WriteAt(b, o.offset)
	if err == nil {
		err = o.journal.Sync()
	}
	if err != nil {
		o.journal.Truncate(o.offset) // a torn end is found by the reader in any case
		return err
	}
	o.offset += int64(len(b))
	o.Runs = runs
	return nil
}

// Clear takes away the result files in the folder to work in, but for some.
func (o *Folder) Clear(but ...string) {
	for _, name := range resultNames {
		if !slices.Contains(but, name) {
			os.Remove(filepath.Join(o.Part, name))
		}
	}
}

// Close gives the folder to others.
func (o *Folder) Close() {
	if o.journal != nil {
		o.journal.Close()
		o.journal = nil
	}
	if o.lock != nil {
		o.lock.release()
	}
}

// Finish gives the folder its own name, in place of one that may be replaced.
// The journal stays in the folder of a shard, for merge.
func (o *Folder) Finish(force, keepJournal bool) error {
	if err := o.MayReplace(force); err != nil {
		return err
	}
	if o.journal != nil {
		o.journal.Close()
		o.journal = nil
	}
	syncFolder(o.Part)
	if o.BeforeNaming != nil {
		o.BeforeNaming()
	}
	old := ""
	if there, _ := isFolder(o.Path); there {
		if err := o.removeOld(); err != nil {
			return err
		}
		old = o.oldName()
		if err := os.Rename(o.Path, old); err != nil {
			return fmt.Errorf("cannot replace %s: %w", o.Path, mistake.Reason(err))
		}
	}
	if err := os.Rename(o.Part, o.Path); err != nil {
		if old != "" {
			os.Rename(old, o.Path)
		}
		return fmt.Errorf("cannot rename %s to %s: %w", o.Part, o.Path, mistake.Reason(err))
	}
	syncFolder(filepath.Dir(o.Path))
	if !keepJournal {
		os.Remove(filepath.Join(o.Path, Journal))
	}
	return o.removeOld()
}

// oldName is what a folder is called while another takes its place.
func (o *Folder) oldName() string { return fmt.Sprintf("%s.old-%d", o.Path, os.Getpid()) }

// removeOld removes what was replaced, now and by processes that were killed
// before they could. Only who has the lock may do that.
func (o *Folder) removeOld() error {
	for _, old := range o.olds() {
		if err := os.RemoveAll(old); err != nil {
			return fmt.Errorf("cannot remove %s: %w", old, mistake.Reason(err))
		}
	}
	return nil
}

// olds returns the folders that were replaced and are still there; what holds
// anything but results is somebody else's.
func (o *Folder) olds() (list []string) {
	entries, err := os.ReadDir(filepath.Dir(o.Path))
	if err != nil {
		return nil
	}
	for _, entry := range entries {
		process, ok := strings.CutPrefix(entry.Name(), filepath.Base(o.Path)+".old-")
		if _, err := strconv.Atoi(process); !ok || err != nil {
			continue
		}
		if old := filepath.Join(filepath.Dir(o.Path), entry.Name()); onlyResults(old) == nil {
			list = append(list, old)
		}
	}
	return list
}

// Tidy takes away what a process left that was killed after the folder had got
// its name: the journal of a whole batch, and what was replaced. It reports
// whether there was anything.
func (o *Folder) Tidy(keepJournal bool) (tidied bool, err error) {
	left := !keepJournal && isWhole(o.Path) && hasJournal(o.Path)
	if !left && len(o.olds()) == 0 {
		return false, nil
	}
	if o.lock, err = lockFolder(o.Path); err != nil {
		return false, o.lockError(err)
	}
	defer o.Close()
	if left {
		os.Remove(filepath.Join(o.Path, Journal))
	}
	return true, o.removeOld()
}

// isWhole reports whether a folder holds all results of a batch: what is
// written last is there.
func isWhole(folder string) bool {
	info, err := os.Stat(filepath.Join(folder, PackageFile))
	return err == nil && info.Mode().IsRegular()
}

// syncFolder has the names in a folder on the disk. Where a system cannot do
// that there is nothing to do about it.
func syncFolder(path string) {
	if f, err := os.Open(path); err == nil {
		f.Sync()
		f.Close()
	}
}

// FinishedJob reads what a finished folder holds: results, or a shard.
func FinishedJob(path string) (*Job, error) {
	if f, err := os.Open(filepath.Join(path, Journal)); err == nil {
		defer f.Close()
		r, err := batch.NewReader(f)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name(), err)
		}
		job, err := readJob(r.Header.Job)
		if err != nil {
			return nil, &mistake.Input{What: fmt.Sprintf("%s: %v", f.Name(), err), Cure: "--force in place of --resume plays it again"}
		}
		return job, nil
	}
	data, err := os.ReadFile(filepath.Join(path, PackageFile))
	var scenario []byte
	if err == nil {
		scenario, err = os.ReadFile(filepath.Join(path, "scenario.yaml"))
	}
	var pack struct {
		Warmby *Job `json:"warmby"`
	}
	if err != nil || json.Unmarshal(data, &pack) != nil || pack.Warmby == nil {
		return nil, mistake.WithHint(mistake.Exists{Path: path}, "it is no folder of results; give another --out")
	}
	pack.Warmby.Scenario = string(scenario)
	return pack.Warmby, nil
}
