package main

import (
	"fmt"
	"time"
)

// progress tells on standard error how far something has got: one line that is
// written over on a terminal, a line every ten seconds otherwise. It is the only
// thing here that asks what time it is.
type progress struct {
	e        *environment
	what     string
	terminal bool
	start    time.Time
	last     time.Time
	from     int64 // done before the start
	shown    bool
}

func (e *environment) progress(what string) *progress {
	p := &progress{e: e, what: what, terminal: isTerminal(e.stderr)}
	p.begin(0)
	return p
}

// begin sets the clock, with so much done already.
func (p *progress) begin(done int64) {
	p.start, p.from = time.Now(), done
	p.last = p.start
}

// update tells how many runs are done and left, if it is time.
func (p *progress) update(done, left int64) {
	now := time.Now()
	every := 10 * time.Second
	if p.terminal {
		every = 250 * time.Millisecond
	}
	if now.Sub(p.last) < every {
		return
	}
	p.last = now
	line := fmt.Sprintf("%s: %s of %s runs%s", p.what, grouped(done), grouped(done+left), p.timeLeft(now, done, left))
	if p.terminal {
		fmt.Fprintf(p.e.stderr, "\r%s\x1b[K", line)
		p.shown = true
		return
	}
	p.e.note("%s", line)
}

func (p *progress) timeLeft(now time.Time, done, left int64) string {
	if done <= p.from || left <= 0 {
		return ""
	}
	seconds := now.Sub(p.start).Seconds() / float64(done-p.from) * float64(left)
	switch s := int64(seconds + 0.5); {
	case s < 60:
		return fmt.Sprintf(", %d s left", s)
	case s < 3600:
		return fmt.Sprintf(", %d min %02d s left", s/60, s%60)
	default:
		return fmt.Sprintf(", %d h %02d min left", s/3600, s/60%60)
	}
}

// end takes the line on a terminal away.
func (p *progress) end() {
	if p.shown {
		fmt.Fprint(p.e.stderr, "\r\x1b[K")
		p.shown = false
	}
}

// grouped writes a number with commas between thousands.
func grouped(n int64) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
