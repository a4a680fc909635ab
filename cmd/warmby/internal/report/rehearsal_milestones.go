package report

import (
	"fmt"

	"warmby/sim"
	"warmby/sim/heat"
	"warmby/sim/stats"
)

// milestones tells the milestones of the drill as played, against their targets.
func (r Rehearsal) milestones() []Block {
	t := Table{Caption: "Milestones of the drill as played, against their targets",
		Columns: []Column{{}, {Head: "since arrival", Right: true}, {Head: "clock"}, {Head: "target"}, {}}}
	for i, m := range r.Drill.Milestones {
		at := r.Milestones[i]
		row := Cells(m.Name, Since(at), "", "", "")
		if !r.Drill.Site.Arrival.IsZero() && at != sim.Never {
			row[2] = Say("{}", r.site().Came(at))
		}
		if m.By != sim.Never {
			row[3], row[4] = r.targetInFull(m), verdict(m, at)
		} else if m.ByText != "" {
			row[3], row[4] = Say("by {}", m.ByText), Say("it does not get dark")
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t}
}

// targetInFull writes a target both as it was asked for and since arrival.
func (r Rehearsal) targetInFull(m sim.Milestone) Sentence {
	clock := !r.Drill.Site.Arrival.IsZero()
	switch {
	case m.ByText == "dark" && clock:
		return Say("by dark ({})", r.site().At(m.By))
	case m.ByText == "dark":
		return Say("by dark ({})", Since(m.By))
	case clock:
		return Say("by {} ({})", r.site().At(m.By), Since(m.By))
	}
	return Say("by {}", Since(m.By))
}

func verdict(m sim.Milestone, at sim.Time) Sentence {
	switch {
	case at == sim.Never:
		return Say("missed: never")
	case at > m.By:
		return Say("missed by {}", Length(at-m.By))
	case at == m.By:
		return Say("met to the second")
	}
	return Say("met, {} to spare", Length(m.By-at))
}

// oddsTable tells all milestones in the drawn evenings.
func (r Rehearsal) oddsTable() []Block {
	if r.Evenings == nil {
		return nil
	}
	t := Table{Caption: "When milestones are reached in drawn " + r.site().Many,
		Columns: []Column{{}, {Head: "usually"}, {Head: "9 of 10 by"}, {Head: "in time"}}}
	for m, milestone := range r.Drill.Milestones {
		times := stats.SortedOf(r.Evenings.Times[m])
		row := Cells(milestone.Name, By{stats.QuantileOf(times, 0.5), r.site()}, By{stats.QuantileOf(times, 0.9), r.site()})
		if milestone.By != sim.Never {
			row = append(row, Say("{}", Share{Share: stats.ShareOf(int64(r.InTime(m)), int64(len(r.Evenings.Times[m])))}))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t, Text{Says: Say("{} of seed {}, mishaps included; in brackets the 95 % interval.",
		Count{len(r.Evenings.Times[0]), "run"}, fmt.Sprint(r.OddsSeed))}}
}

// howUsual tells in how many evenings it goes as quickly as it was played.
func (r Rehearsal) howUsual() []Block {
	if r.Evenings == nil || r.Drawn {
		return nil
	}
	var parts []Sentence
	for m := range r.Milestones {
		if r.Milestones[m] == sim.Never {
			continue
		}
		share := Share{Share: stats.ShareOf(int64(r.Quickly(m)), int64(len(r.Evenings.Times[m])))}
		parts = append(parts, Say("{} {}", r.Drill.Milestones[m].Name, share))
	}
	return []Block{Text{Says: Say("Most {} are slower than the usual values. This early or earlier came: {}. In brackets the 95 % interval.",
		r.site().Many, Join(parts, "; "))}}
}

// WhyMilestone says why a milestone was reached when it was, or why it never
// was.
func WhyMilestone(tl *sim.Timeline, milestone int) Sentence {
	last := -1
	for _, t := range tl.Drill.Milestones[milestone].When {
		if last < 0 || tl.Tasks[t].End > tl.Tasks[last].End {
			last = t
		}
	}
	if last < 0 {
		return Say("it names no task")
	}
	if tl.Tasks[last].End != sim.Never {
		return Say("{} ended last, {} after arrival", quote(tl.Drill.Tasks[last].Name), Length(tl.Tasks[last].End))
	}
	if stop := tl.StopOf(milestone); stop != nil {
		return stopped(*stop)
	}
	for i := range tl.Drill.Tasks {
		if why := whyNeverWarm(tl, i); why != nil {
			return why
		}
	}
	return Say("{} never ends", quote(tl.Drill.Tasks[last].Name))
}

// stopped says why a task can never start or end.
func stopped(c sim.Cause) Sentence { return Say("{} {}", quote(c.Task), c.Why) }

// stops says what the drill came to a stop at, and what helps.
func (r Rehearsal) stops() (list []Block) {
	for _, c := range r.Stops {
		says := sentence(stopped(c))
		if c.Hint != "" {
			says = Say("{} {}", says, sentenceEnd(Say("{}", capital(c.Hint))))
		}
		list = append(list, Text{Item: true, Says: says})
	}
	return list
}

// stopLine says that the drill came to a stop, and at what first.
func (r Rehearsal) stopLine() Sentence {
	if len(r.Stops) == 0 {
		return nil
	}
	more := ""
	if n := len(r.Stops) - 1; n > 0 {
		more = fmt.Sprintf(" (and %d more: --all)", n)
	}
	return Briefly(Say("It comes to a stop at {}: {}{}.", r.site().Came(r.End), stopped(r.Stops[0]), more))
}

// whyNeverWarm says of a warm-up that never gets there what the stove can hold
// and what was asked; nil for any other task.
func whyNeverWarm(tl *sim.Timeline, task int) Sentence {
	t := &tl.Drill.Tasks[task]
	if t.Kind != sim.Warm || tl.Tasks[task].Start == sim.Never || tl.Tasks[task].Worked != sim.Never {
		return nil
	}
	in := heat.Outlook(tl, task)
	return Say("{}: {} can hold {} in {} at {} outside; {} were asked for", quote(t.Name), tl.Drill.Stoves[t.Warm.Stove].Name,
		degrees(in.Holds()), tl.Drill.Shelters[t.Warm.Shelter].Name, degrees(in.Outside), degrees(t.Warm.To))
}

func degrees(c float64) Quantity { return Quantity{Value: c, Unit: "C", Decimals: 1} }

func quote(name string) string { return fmt.Sprintf("%q", name) }
