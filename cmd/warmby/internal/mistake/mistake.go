// Package mistake has the errors that people can mend: what is wrong, and a
// likely cure.
package mistake

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
)

// Usage is a command line that cannot be understood.
type Usage struct {
	What string // where, what, which value, what was expected
	Cure string // a likely cure, printed as a hint; may be empty
}

func (e *Usage) Error() string { return e.What }

// Hint returns the likely cure.
func (e *Usage) Hint() string { return e.Cure }

// Usagef returns a Usage without a cure.
func Usagef(format string, args ...any) *Usage { return &Usage{What: fmt.Sprintf(format, args...)} }

// Input is a file that was read but does not hold what it should.
type Input struct{ What, Cure string }

func (e *Input) Error() string { return e.What }

// Hint returns the likely cure.
func (e *Input) Hint() string { return e.Cure }

// hinted adds a likely cure to an error.
type hinted struct {
	error
	hint string
}

func (e *hinted) Unwrap() error { return e.error }

// Hint returns the likely cure.
func (e *hinted) Hint() string { return e.hint }

// WithHint adds a likely cure, printed as a second line.
func WithHint(err error, format string, args ...any) error {
	return &hinted{err, fmt.Sprintf(format, args...)}
}

// Quoted writes words one after the other, each in quotation marks.
func Quoted(words []string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = fmt.Sprintf("%q", w)
	}
	return strings.Join(q, " ")
}

// QuotedOrNone is Quoted, and "none" without words.
func QuotedOrNone(words []string) string {
	if len(words) == 0 {
		return "none"
	}
	return Quoted(words)
}

// Reason strips an error of the path that it repeats.
func Reason(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

// Several are mistakes of one command line, all told at once.
type Several struct{ List []*Usage }

// Error returns a line for each.
func (e *Several) Error() string {
	lines := make([]string, len(e.List))
	for i, one := range e.List {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Exists is a file or folder that would be overwritten, an [fs.ErrExist].
type Exists struct{ Path string }

func (e Exists) Error() string { return e.Path + " exists already and was left as it is" }

// Is reports whether the target is [fs.ErrExist].
func (Exists) Is(target error) bool { return target == fs.ErrExist }
