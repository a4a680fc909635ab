package report

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/doubt"
	"warmby/sim/rehearse"
	"warmby/sim/stats"
)

// Rehearsal is one drill as played, for its report.
type Rehearsal struct {
	*rehearse.Rehearsal
	WhatIf   string // "" for the scenario as it stands
	Drawn    bool   // one run of a seed, and not usual values
	Seed     uint64 // of the run
	Run      int
	OddsSeed uint64        // of the evenings
	Doubts   []doubt.Doubt // of each milestone; nil where there is nothing to doubt
	Numbers  doubt.Numbers
	Differs  string // how the two engines differ; "" when they agree
	// Repeat and Cautions are commands: this one, and the one that prints the
	// cautions in full.
	Repeat, Cautions string
}

// most is how many lines a lead has, the title among them.
const most = 10

// titleHeadingsAndCautions is how many lines of a lead are these.
const titleHeadingsAndCautions = 3

// Report tells a rehearsal.
func (r Rehearsal) Report() *Report {
	out := &Report{Title: r.title(), Subtitle: r.subtitle(), Repeat: r.Repeat, All: r.Repeat + " --all"}
	if r.Differs != "" {
		out.Warnings = append(out.Warnings, Say("NOT TO BE RELIED ON: the two engines differ: {}", r.Differs))
	}
	rows := most - titleHeadingsAndCautions
	if s := r.stopLine(); s != nil {
		out.Warnings = append(out.Warnings, s)
		rows -= linesOf(s)
	}
	var lines []Block
	for _, line := range []func() Sentence{r.coldLine, r.aloneLine, r.shortenLine} {
		if s := line(); !s.IsEmpty() {
			lines = append(lines, Text{Says: s})
		}
	}
	out.Lead = append(out.Lead, r.leadTable(max(1, rows-len(lines))))
	out.Lead = append(out.Lead, lines...)
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	add(false, "Cold, sweat and stoves", r.warmthShort())
	add(false, "Person by person", r.byPerson())
	add(false, "What held it up", r.heldUpShort())
	add(false, Doubted, doubts(r.Drill, r.Doubts, r.Numbers))
	add(true, "Drill", r.facts())
	add(true, "What it came to a stop at", r.stops())
	add(true, "Milestones", r.milestones())
	add(true, "When, in drawn "+r.site().Many, r.oddsTable())
	add(true, "People", r.people())
	add(true, "Tasks (minutes:seconds since arrival)", r.tasks())
	add(true, "What held it up, step by step (minutes:seconds; they add up)", r.heldUp())
	add(true, "Cold", r.cold())
	add(true, "Who sweats", r.sweats())
	add(true, "Lookouts and the cold", r.reliefs())
	add(true, "Stoves left alone", r.leftAlone())
	add(true, "How warm the shelters were", r.rooms())
	add(true, "Who was inside", r.assumed())
	add(true, "What the dark cost", r.dark())
	add(true, "Longer than asked for", r.stoodTooLong())
	add(true, "Lookouts that did not come to pass", r.unstood())
	add(true, "Fuel", r.fuel())
	add(true, "How usual this is", r.howUsual())
	out.WithCautions(cold.Cautions(r.Drill, r.Accounts), r.Cautions)
	return out
}

func (r Rehearsal) site() Site { return SiteOf(r.Drill) }

// ShortTitle returns what a scenario calls itself, up to the first comma.
func ShortTitle(title string) string {
	short, _, _ := strings.Cut(title, ",")
	return strings.TrimSpace(short)
}

func (r Rehearsal) title() string {
	title := ShortTitle(r.Drill.Title)
	if r.Drill.Order != "" {
		title += fmt.Sprintf(", %q", r.Drill.Order)
	}
	return title
}

// subtitle says when the team arrives and when it grows dark, and what is
// supposed beyond the file.
func (r Rehearsal) subtitle() Sentence {
	var parts []Sentence
	if !r.Drill.Site.Arrival.IsZero() {
		s := Say("Arrive {}", r.site().At(0))
		if dark := darkOf(r.Drill); !dark.IsEmpty() {
			s = Say("{}, {}", s, dark)
		}
		parts = append(parts, s)
	}
	if r.WhatIf != "" {
		parts = append(parts, Say("what if {}", fmt.Sprintf("%q", r.WhatIf)))
	}
	if r.Numbers.Drills > 0 {
		parts = append(parts, timedWords(r.Numbers))
	}
	if r.Drawn {
		parts = append(parts, Say("run {} of seed {}", r.Run, fmt.Sprint(r.Seed)))
	}
	return sentence(Join(parts, "; "))
}

// darkOf says when it first grows dark; empty when it does not, or nobody knows.
func darkOf(d *sim.Drill) Sentence {
	for _, l := range d.Light {
		switch {
		case l.Dark && l.At == 0 && len(d.Light) == 1:
			return Say("dark all the time")
		case l.Dark && l.At == 0:
			return Say("dark already")
		case l.Dark:
			return Say("dark {}", SiteOf(d).At(l.At))
		}
	}
	return nil
}

// leadTable has the milestones, in at most so many rows below the headings.
func (r Rehearsal) leadTable(rows int) Table {
	t := Table{Caption: "When each milestone is reached", Columns: []Column{{}}}
	if r.Drawn || r.Evenings == nil {
		head := "at"
		if r.Drawn {
			head = "this time"
		}
		t.Columns = append(t.Columns, Column{Head: head})
	}
	if r.Evenings != nil {
		t.Columns = append(t.Columns, Column{Head: "usually"}, Column{Head: "9 of 10 by"})
	}
	t.Columns = append(t.Columns, Column{Head: "in time"}, Column{})
	for i, m := range r.leadMilestones(rows) {
		t.Rows = append(t.Rows, r.leadRow(m, i == 0))
	}
	return t
}

func (r Rehearsal) leadRow(m int, first bool) []Sentence {
	milestone, at := r.Drill.Milestones[m], r.Milestones[m]
	row := Cells(milestone.Name)
	if r.Drawn || r.Evenings == nil {
		row = append(row, Say("{}", r.site().Came(at)))
	}
	if r.Evenings != nil {
		times := stats.SortedOf(r.Evenings.Times[m])
		for _, p := range []float64{0.5, 0.9} {
			row = append(row, Say("{}", By{stats.QuantileOf(times, p), r.site()}))
		}
	}
	if milestone.By == sim.Never {
		return row
	}
	verdict := Say("yes")
	switch {
	case r.Evenings != nil:
		s := Share{Share: stats.ShareOf(int64(r.InTime(m)), int64(len(r.Evenings.Times[m])))}
		if first {
			s.Of = r.site().Many
		}
		verdict = Say("{}", s)
	case !r.Met(m):
		verdict = Say("no")
	}
	return append(row, verdict, r.target(m))
}

// target writes a target as it was asked for.
func (r Rehearsal) target(m int) Sentence { return target(r.Drill, m) }

func target(d *sim.Drill, m int) Sentence {
	if d.Milestones[m].ByText == "dark" {
		return Say("by dark")
	}
	return Say("by {}", SiteOf(d).At(d.Milestones[m].By))
}

// leadMilestones chooses the milestones of the lead, in file order: those with a
// target before the others, and those in time least often before those nearly
// always in time.
func (r Rehearsal) leadMilestones(rows int) []int {
	var ms []int
	for m := range r.Drill.Milestones[:len(r.Milestones)-1] {
		ms = append(ms, m)
	}
	if len(ms) == 0 {
		return []int{len(r.Milestones) - 1}
	}
	slices.SortStableFunc(ms, func(a, b int) int { return r.ease(a) - r.ease(b) })
	ms = ms[:min(rows, len(ms))]
	slices.Sort(ms)
	return ms
}

// ease ranks milestones by how little they must be said.
func (r Rehearsal) ease(m int) int {
	switch {
	case r.Drill.Milestones[m].By == sim.Never && r.Evenings != nil:
		return len(r.Evenings.Times[m]) + 1
	case r.Drill.Milestones[m].By == sim.Never:
		return 2
	case r.Evenings != nil:
		return r.InTime(m)
	case r.Met(m):
		return 1
	}
	return 0
}

// shortenLine says what is best shortened.
func (r Rehearsal) shortenLine() Sentence {
	s := r.Shorten
	if s == nil {
		return nil
	}
	for _, pattern := range []string{"What to shorten first: {} ({} less there: {} {} sooner).", "Shorten first: {} ({} less: {} {} sooner)."} {
		says := Say(pattern, r.Drill.Tasks[s.Task].OwnName(), Length(s.By), r.Drill.Milestones[s.Milestone].Name, Length(s.Sooner))
		if lines(says) == 1 {
			return says
		}
	}
	return Say("Shorten first: {}.", r.Drill.Tasks[s.Task].OwnName())
}

// facts says what was played, in full.
func (r Rehearsal) facts() []Block {
	d := r.Drill
	parts := []Sentence{Say("{}", d.Title)}
	if d.Order != "" {
		parts = append(parts, Say("order {}", fmt.Sprintf("%q", d.Order)))
	} else {
		parts = append(parts, Say("tasks in file order"))
	}
	if r.Drawn {
		parts = append(parts, Say("run {} of seed {} (one draw of many)", r.Run, fmt.Sprint(r.Seed)))
	} else {
		mishaps := "no mishaps"
		if slices.ContainsFunc(slices.Concat(r.Luck.Mishaps, r.Luck.MishapsThen), func(n int) bool { return n > 0 }) {
			mishaps = "no mishaps but certain ones"
		}
		parts = append(parts, Say("usual values, {}", mishaps))
	}
	if len(d.Weather) > 1 {
		parts = append(parts, Say("weather {}", fmt.Sprintf("%q", d.Weather[r.Luck.Weather].Name)))
	}
	if !d.Site.Arrival.IsZero() {
		parts = append(parts, Say("arrival {}", Date(d.Site.Arrival)))
	}
	return []Block{Text{Says: sentence(Join(parts, "; "))}}
}
