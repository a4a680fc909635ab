package main

import (
	"fmt"
	"strings"

	"warmby/sim"
)

// totals is how long a person was about what, up to the end of the drill.
type totals struct{ working, walking, lookout, waiting sim.Time }

func totalsOf(stretches []sim.Stretch) totals {
	var t totals
	for _, s := range stretches {
		dt := s.To - s.From
		switch s.What {
		case sim.Working:
			t.working += dt
		case sim.Walking:
			t.walking += dt
		case sim.Watching:
			t.lookout += dt
		default:
			t.waiting += dt
		}
	}
	return t
}

// marks are the letters that stand for tasks in the strips.
const marks = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

// letters gives each task that somebody worked on a letter, in the sequence in
// which they were called; tasks beyond the letters share '*'.
func letters(tl *sim.Timeline) []string {
	out := make([]string, len(tl.Tasks))
	n := 0
	for _, i := range byCall(tl) {
		if tl.Drill.Tasks[i].Crew.Max == 0 || tl.Tasks[i].Called == sim.Never {
			continue
		}
		out[i] = "*"
		if n < len(marks) {
			out[i] = marks[n : n+1]
		}
		n++
	}
	return out
}

// Signs in the strips that stand for no task.
const (
	signWaiting = "."
	signWalking = "-"
	signLookout = "="
	signAway    = " "
)

// peopleText writes a strip of what each person did, with totals.
func peopleText(tl *sim.Timeline, width int) string {
	d := tl.Drill
	name := 0
	for _, p := range d.People {
		name = max(name, len([]rune(p.Name)))
	}
	totalsWidth := len("  working  walking  lookout  waiting")
	columns := max(24, width-2-name-2-totalsWidth)
	tick := niceTick(tl.End, columns)
	columns = min(columns, int((tl.End+tick-1)/tick)+1)
	letter := letters(tl)
	var b strings.Builder
	fmt.Fprintf(&b, "  %-*s  %s  working  walking  lookout  waiting\n", name, "", ruler(tick, columns))
	for i, p := range d.People {
		t := totalsOf(tl.People[i])
		fmt.Fprintf(&b, "  %-*s  %s  %7s  %7s  %7s  %7s\n", name, p.Name, strip(tl.People[i], letter, tick, columns),
			minutes(t.working), minutes(t.walking), minutes(t.lookout), minutes(t.waiting))
	}
	fmt.Fprintf(&b, "\n  One sign is %s: a letter for a task (below), %s walking, %s lookout, %s waiting.\n",
		sim.Clock(tick), signWalking, signLookout, signWaiting)
	return b.String()
}

func minutes(t sim.Time) string { return fmt.Sprintf("%.0f min", t.Minutes()) }

// niceTick returns the length that one sign stands for, so that end fits into
// columns.
func niceTick(end sim.Time, columns int) sim.Time {
	for _, t := range []sim.Time{30 * sim.Second, sim.Minute, 2 * sim.Minute, 3 * sim.Minute, 5 * sim.Minute, 10 * sim.Minute, 15 * sim.Minute, 30 * sim.Minute, sim.Hour} {
		if end <= t*sim.Time(columns) {
			return t
		}
	}
	return (end/sim.Time(columns)/sim.Hour + 1) * sim.Hour
}

// ruler marks every tenth sign with the minutes since arrival.
func ruler(tick sim.Time, columns int) string {
	var b strings.Builder
	for b.Len() < columns {
		at := fmt.Sprintf("|%.0f", (sim.Time(b.Len()) * tick).Minutes())
		if b.Len()+len(at) > columns {
			at = ""
		}
		b.WriteString(at + strings.Repeat(" ", min(10-len(at), columns-b.Len()-len(at))))
	}
	return b.String()
}

// strip writes what took most of each sign's time.
func strip(stretches []sim.Stretch, letter []string, tick sim.Time, columns int) string {
	var b strings.Builder
	k := 0
	for c := range columns {
		from, to := sim.Time(c)*tick, sim.Time(c+1)*tick
		for k < len(stretches) && stretches[k].To <= from {
			k++
		}
		best, most := signAway, sim.Time(0)
		for _, s := range stretches[k:] {
			if s.From >= to {
				break
			}
			if dt := min(s.To, to) - max(s.From, from); dt > most {
				most, best = dt, signOf(s, letter)
			}
		}
		b.WriteString(best)
	}
	return b.String()
}

func signOf(s sim.Stretch, letter []string) string {
	switch s.What {
	case sim.Working:
		return letter[s.Task]
	case sim.Walking:
		return signWalking
	case sim.Watching:
		return signLookout
	}
	return signWaiting
}
