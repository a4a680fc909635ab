package sim

import "strings"

// NeverError says that a drill can never finish, and why: the tasks that can
// never start, each with its cause.
type NeverError struct {
	Causes []Cause
}

// Cause is why a task can never start or end.
type Cause struct {
	Task string // "" when it is about the whole drill
	Why  string
	Hint string // a likely cure; may be empty
}

func (e *NeverError) Error() string {
	var b strings.Builder
	for i, c := range e.Causes {
		if i > 0 {
			b.WriteString("; ")
		}
		if c.Task != "" {
			b.WriteString("task \"" + c.Task + "\" ")
		}
		b.WriteString(c.Why)
	}
	return b.String()
}
