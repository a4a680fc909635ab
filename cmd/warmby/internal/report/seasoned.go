package report

import (
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/fit"
	"warmby/sim/review"
)

// Seasoned is a season's drills beside each other, for their report.
type Seasoned struct {
	*review.Season
	Fitted           *fit.Fitted
	Milestone        int // the one that each line tells
	Invented         bool
	Repeat, Cautions string
}

// Report tells a season: one line a drill, then teams.
func (r Seasoned) Report() *Report {
	d := r.Fitted.Drill
	out := &Report{Title: ShortTitle(d.Title) + ", a season's drills", Repeat: r.Repeat, All: r.Repeat + " --all",
		Subtitle: sentence(Say("{}; when: {}", Count{len(r.Attempts), "drill"}, d.Milestones[r.Milestone].Name))}
	const enough = 3
	out.Warnings = oneWarning(r.Invented, nil, enough)
	last := r.lastLine()
	teams := r.teamLine()
	rows := most - titleHeadingsAndCautions - 1 - len(out.Warnings)
	if !teams.IsEmpty() {
		rows--
	}
	out.Lead = []Block{r.lines(max(0, len(r.Attempts)-rows), false), Text{Says: last}}
	if !teams.IsEmpty() {
		out.Lead = append(out.Lead, Text{Says: teams})
	}
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	add(false, "Every drill", []Block{r.lines(0, true), Text{Says: Say("Foretold from the drills before it only. The day is what the drill's work took beyond its team, its conditions and the tasks done: under 100 % is quicker.")}})
	add(false, "Teams, with conditions evened out", r.teams())
	add(true, "All milestones", r.all())
	out.WithCautions(cold.Cautions(d, nil), r.Cautions)
	return out
}

// lines has one line a drill, from one on; in full with its day.
func (r Seasoned) lines(from int, full bool) Table {
	t := Table{Caption: "One line a drill", Columns: []Column{{Head: "drill"}, {Head: "date"}, {Head: "team"}, {Head: "came", Right: true}, {Head: "foretold, 8 in 10"}, {}}}
	if full {
		t.Columns = append(t.Columns, Column{Head: "day", Right: true})
	}
	for _, a := range r.Attempts[from:] {
		e := r.Fitted.Evenings[a.Evening]
		row := Cells(e.Timed.Name, e.Timed.Date, e.Timed.Team, "-", "-", "")
		m := a.Milestones[r.Milestone]
		if m.Came != sim.Never {
			row[3] = Say("{}", Since(m.Came))
		}
		if a.Foretold {
			row[4] = Say("{} to {}", Since(m.Low), Since(m.High))
		}
		row[5] = r.verdict(a)
		if full {
			row = append(row, Say("{}", Percent(a.Day)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (r Seasoned) verdict(a review.Attempt) Sentence {
	m := a.Milestones[r.Milestone]
	switch {
	case r.Fitted.Evenings[a.Evening].Timed.CalledOff:
		return Say("called off")
	case m.Came == sim.Never || !a.Foretold:
		return Say("")
	case m.Came < m.Low:
		return Say("sooner")
	case m.Came > m.High:
		return Say("later")
	}
	return Say("within")
}

// lastLine sets the last attempt against what was foretold of it.
func (r Seasoned) lastLine() Sentence {
	a := r.Attempts[len(r.Attempts)-1]
	e, m := r.Fitted.Evenings[a.Evening], a.Milestones[r.Milestone]
	name := r.Fitted.Drill.Milestones[r.Milestone].Name
	switch {
	case !a.Foretold:
		return Say("Nothing was foretold: drills need dates, and one before another.")
	case m.Came == sim.Never:
		return Say("Drill {}: {} was not timed, or not reached.", e.Timed.Name, quote(name))
	case m.Came < m.Low:
		return Say("Drill {}: {} sooner than the drills before it let expect.", e.Timed.Name, quote(name))
	case m.Came > m.High:
		return Say("Drill {}: {} later than the drills before it let expect.", e.Timed.Name, quote(name))
	}
	return Say("Drill {}: {} as the drills before it let expect.", e.Timed.Name, quote(name))
}

// teamLine says whether teams can be told apart.
func (r Seasoned) teamLine() Sentence {
	if len(r.Season.Teams) < 2 {
		return nil
	}
	apart := false
	var each []Sentence
	for _, t := range r.Season.Teams {
		if t.Known {
			apart = apart || t.High < 1 || t.Low > 1
			each = append(each, Say("{} {}", t.Name, Length(minutesOf(60*t.Factor))))
		}
	}
	if !apart {
		return Say("Teams: these drills cannot tell them apart.")
	}
	return Say("Teams, for an hour's work of the average: {}.", Join(each, ", "))
}

func (r Seasoned) teams() []Block {
	t := Table{Caption: "Teams beside each other", Columns: []Column{{}, {Head: "drills", Right: true}, {Head: "work takes", Right: true}, {Head: "8 in 10"}}}
	for _, one := range r.Season.Teams {
		if !one.Known {
			t.Rows = append(t.Rows, Cells(one.Name, one.Drills, "?", "too few drills to tell"))
			continue
		}
		t.Rows = append(t.Rows, Cells(one.Name, one.Drills, Percent(one.Factor), Say("{} to {}", Percent(one.Low), Percent(one.High))))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{t, Text{Says: Say("Of the average of the teams, for the same tasks; a drill's day and its conditions are evened out. It says nothing of people.")}}
}

func (r Seasoned) all() []Block {
	t := Table{Caption: "All milestones of all drills, since arrival", Columns: []Column{{Head: "drill"}}}
	for _, m := range r.Fitted.Drill.Milestones {
		t.Columns = append(t.Columns, Column{Head: m.Name, Right: true})
	}
	for _, a := range r.Attempts {
		row := Cells(r.Fitted.Evenings[a.Evening].Timed.Name)
		for _, m := range a.Milestones {
			if m.Came == sim.Never {
				row = append(row, Say("-"))
				continue
			}
			row = append(row, Say("{}", Since(m.Came)))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t}
}
