package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"time"

	"golang.org/x/term"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/heat"
)

// paper is how wide text is when it does not go to a terminal, in characters.
const paper = 100

// width returns how wide text may be: the terminal's width, within reason, or
// that of paper, so that files are the same everywhere.
func (e *environment) width() int {
	if f, ok := e.screen.(*os.File); ok && isTerminal(f) {
		if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
			return min(180, max(72, w))
		}
	}
	return paper
}

// text writes the whole rehearsal for people.
func (r *rehearsal) text(width int) string {
	d := r.tl.Drill
	var b strings.Builder
	b.WriteString(wrap(d.Title, width, "", ""))
	b.WriteString(wrap(r.subtitle(), width, "", ""))
	if r.differs != "" {
		b.WriteString(wrap("NOT TO BE RELIED ON: the two engines differ: "+r.differs, width, "", ""))
	}
	section := func(heading, body string) { section(&b, width, heading, body) }
	section("Milestones", milestonesText(r.tl))
	section("People", peopleText(r.tl, width))
	section("Tasks (minutes:seconds since arrival)", tasksText(r.tl, width))
	section("What held it up (lengths in minutes:seconds; they add up)", heldUpText(r.tl, width))
	section("Cold", coldText(r.tl, r.cold, width))
	section("Lookouts and the cold", reliefText(r.tl, r.cold, width))
	section("What the dark cost", darkText(r.tl, width))
	section("Longer than asked for", longWatchText(r.tl, width))
	section("Fuel", fuelText(r.tl))
	section("How usual this is", r.share.text(r.tl, width))
	section("Cautions", cautionsText(cold.Cautions(d, r.cold), width))
	fmt.Fprintf(&b, "\nPlayed by: %s\n", r.repeat())
	return b.String()
}

// subtitle says which order was played, with what luck, and when.
func (r *rehearsal) subtitle() string {
	d := r.tl.Drill
	var parts []string
	if d.Order != "" {
		parts = append(parts, fmt.Sprintf("Order %q", d.Order))
	} else {
		parts = append(parts, "Tasks in file order")
	}
	if r.flags.whatIf != "" {
		parts = append(parts, fmt.Sprintf("what if: %q", r.flags.whatIf))
	}
	if r.flags.drawn {
		parts = append(parts, fmt.Sprintf("run %d of seed %d (one draw of many)", r.flags.run, r.flags.seed))
	} else {
		mishaps := "no mishaps"
		if slices.ContainsFunc(r.tl.Luck.Mishaps, func(n int) bool { return n > 0 }) {
			mishaps = "no mishaps but certain ones"
		}
		parts = append(parts, "usual values, "+mishaps)
	}
	if len(d.Weather) > 1 {
		parts = append(parts, fmt.Sprintf("weather %q", d.Weather[r.tl.Luck.Weather].Name))
	}
	if !d.Site.Arrival.IsZero() {
		parts = append(parts, "arrival "+d.Site.Arrival.Format("Mon 2 Jan 2006 15:04 -07:00"))
	}
	return strings.Join(parts, "; ")
}

// fuelText writes what each kind of stove burned.
func fuelText(tl *sim.Timeline) string {
	var rows [][]string
	for _, u := range heat.Used(tl) {
		if u.Hours == 0 {
			continue
		}
		s := tl.Drill.Stoves[u.Stove]
		amount := "heat of the fuel not known"
		switch {
		case u.Known && u.ByMass:
			amount = fmt.Sprintf("%.2f kg", u.Amount)
		case u.Known:
			amount = fmt.Sprintf("%.2f L", u.Amount)
		}
		rows = append(rows, []string{s.Name, amount, s.Fuel, fmt.Sprintf("lit for %.0f min in all, at full power", u.Hours*60)})
	}
	if rows == nil {
		return ""
	}
	return table("  ", rows, 1) + "  Up to the end of the drill; keeping the shelter warm afterwards is not counted.\n"
}

// longWatchText names those who stood at a lookout for longer than it allows.
func longWatchText(tl *sim.Timeline, width int) string {
	var b strings.Builder
	for i, stretches := range tl.People {
		for _, s := range stretches {
			if s.What != sim.Watching {
				continue
			}
			l := &tl.Drill.Lookouts[s.Lookout]
			if stood := s.To - s.From; l.Longest > 0 && stood > l.Longest {
				b.WriteString(wrap(fmt.Sprintf("%s stood at %s for %s from %s on; no longer than %s was asked for",
					tl.Drill.People[i].Name, l.Name, sim.Clock(stood), sim.Clock(s.From), sim.Clock(l.Longest)), width, "  ", "    "))
			}
		}
	}
	return b.String()
}

func milliseconds(t sim.Time) time.Duration { return time.Duration(t) * time.Millisecond }
