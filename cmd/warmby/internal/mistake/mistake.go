// Package mistake has the errors that people can mend: what is wrong, and a
// likely cure.
package mistake

import "fmt"

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
