package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"warmby/sim"
)

// heldUpText writes, for every milestone, what decided when it was reached:
// lengths that add up, and the reason why each task began when it did. What a
// milestone shares with the one before it is not told twice.
func heldUpText(tl *sim.Timeline, width int) string {
	var b strings.Builder
	told := map[string][]sim.Link{}
	var names []string
	for _, m := range milestonesInTime(tl) {
		name := tl.Drill.Milestones[m].Name
		links := tl.HeldUp(m)
		if links == nil {
			b.WriteString(wrap(fmt.Sprintf("%s: never. %s", name, sentence(whyMilestone(tl, m))), width, "  ", "      "))
			continue
		}
		shared, with := 0, ""
		for _, n := range names {
			if k := sameStart(links, told[n]); k > shared {
				shared, with = k, n
			}
		}
		if shared == len(links) {
			fmt.Fprintf(&b, "  %s: with %s\n", name, with)
			continue
		}
		told[name], names = links, append(names, name)
		fmt.Fprintf(&b, "  %s, %s after arrival\n", name, sim.Clock(tl.Milestones[m]))
		if shared > 1 {
			from := links[shared]
			fmt.Fprintf(&b, "    %10s  as for %s, up to %q\n", short(from.Called-from.Why.Lag), with, tl.Drill.Tasks[links[shared-1].Task].Name)
			links = links[shared:]
		} else if first := links[0]; first.Called > 0 {
			fmt.Fprintf(&b, "    %10s  %s\n", short(first.Called), untilText(tl, first.Why))
		}
		for _, l := range links {
			b.WriteString(linkText(tl, l, width))
		}
	}
	return b.String()
}

// milestonesInTime returns the milestones, soonest first.
func milestonesInTime(tl *sim.Timeline) []int {
	var ms []int
	for i := range tl.Milestones {
		ms = append(ms, i)
	}
	slices.SortStableFunc(ms, func(a, b int) int {
		return int(max(-1, min(1, tl.Milestones[a]/2-tl.Milestones[b]/2)))
	})
	return ms
}

// sameStart returns how many links two sequences have in common.
func sameStart(a, b []sim.Link) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

// untilText says what the first task of a sequence had to wait for.
func untilText(tl *sim.Timeline, why sim.Reason) string {
	d := tl.Drill
	switch {
	case why.Kind == sim.LoadAway:
		return fmt.Sprintf("until %s is there", d.Loads[why.Load].Name)
	case why.Kind == sim.PeopleShort && why.Lookout >= 0:
		return fmt.Sprintf("until %s comes off %s", d.People[why.Person].Name, d.Lookouts[why.Lookout].Name)
	case why.Kind == sim.PeopleShort:
		return fmt.Sprintf("until %s is there", d.People[why.Person].Name)
	}
	return "until its turn comes"
}

// linkText writes one link: a wait for a lag, a walk, and the task itself.
func linkText(tl *sim.Timeline, l sim.Link, width int) string {
	d := tl.Drill
	var b strings.Builder
	line := func(length sim.Time, text string) {
		b.WriteString(wrap(text, width, fmt.Sprintf("    %10s  ", short(length)), strings.Repeat(" ", 16)))
	}
	if l.Why.Lag > 0 {
		line(l.Why.Lag, fmt.Sprintf("wait %s after %s of %q", sim.Clock(l.Why.Lag), pointWord(l.Why.From), d.Tasks[l.Why.Task].Name))
	}
	if l.Until == sim.AtCall {
		return b.String()
	}
	if walk := l.Start - l.Called; walk > 0 {
		line(walk, fmt.Sprintf("walk to %q", d.Tasks[l.Task].Name))
	}
	if l.Until == sim.AtEnd {
		text := d.Tasks[l.Task].Name
		if who := tl.Tasks[l.Task].People; len(who) > 0 {
			var names []string
			for _, p := range who {
				names = append(names, d.People[p].Name)
			}
			text += " (" + list(names) + ")"
		}
		if why := reasonText(tl, l.Task, l.Why); why != "" {
			text += ": " + why
		}
		line(tl.Tasks[l.Task].End-l.Start, text)
	}
	return b.String()
}

func pointWord(p sim.Point) string {
	switch p {
	case sim.AtStart:
		return "the start"
	case sim.AtCall:
		return "the call"
	}
	return "the end"
}

// reasonText says in plain words why a task was called no sooner.
func reasonText(tl *sim.Timeline, task int, why sim.Reason) string {
	d := tl.Drill
	text := ""
	switch why.Kind {
	case sim.AfterTask:
		return fmt.Sprintf("comes after %q", d.Tasks[why.Task].Name)
	case sim.UnderItem:
		item := d.Items[why.Item]
		if d.Tasks[task].Unloads() {
			return fmt.Sprintf("lay under %s on %s until then", item.Name, d.Loads[item.Load].Name)
		}
		return fmt.Sprintf("%s lay on %s until then", item.Name, d.Loads[item.Load].Name)
	case sim.LoadAway:
		return fmt.Sprintf("%s was not there before", d.Loads[why.Load].Name)
	case sim.ToolShort:
		text = fmt.Sprintf("too few %q free before", d.Tools[why.Tool].Name)
		if why.Task >= 0 {
			text += fmt.Sprintf(" (on %q)", d.Tasks[why.Task].Name)
		} else {
			text += fmt.Sprintf(" (%s was pulled to %s)", d.People[why.Person].Name, d.Lookouts[why.Lookout].Name)
		}
	case sim.StoveShort:
		text = fmt.Sprintf("no %s free before (on %q)", d.Stoves[why.Stove].Name, d.Tasks[why.Task].Name)
	case sim.PeopleShort:
		text = peopleShortText(tl, why)
	case sim.BehindInTurn:
		text = fmt.Sprintf("stood in turn behind %q", d.Tasks[why.Task].Name)
	case sim.NotLent:
		text = fmt.Sprintf("group %s lent nobody before %q was called", d.Groups[why.Group].Name, d.Tasks[why.Task].Name)
	case sim.NothingToTell:
		text = "its turn came"
	default:
		return ""
	}
	if waited := why.At - why.Ready; waited > 0 {
		text += fmt.Sprintf("; it could have begun %s sooner", sim.Clock(waited))
	}
	return text
}

func peopleShortText(tl *sim.Timeline, why sim.Reason) string {
	d := tl.Drill
	text := "too few people free before"
	if why.Skill >= 0 {
		text = fmt.Sprintf("nobody free with the skill %q before", d.Skills[why.Skill])
	}
	who := d.People[why.Person].Name
	switch {
	case why.Task >= 0:
		return fmt.Sprintf("%s (%s was on %q)", text, who, d.Tasks[why.Task].Name)
	case why.Lookout >= 0:
		return fmt.Sprintf("%s (%s came off %s)", text, who, d.Lookouts[why.Lookout].Name)
	}
	return fmt.Sprintf("%s (%s arrived)", text, who)
}

// sentence makes a text begin with a capital and end in a full stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return sentenceCase(s) + "."
}

// sentenceCase makes a text begin with a capital.
func sentenceCase(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}
