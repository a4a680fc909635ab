package report

import (
	"cmp"
	"slices"

	"warmby/plots"
	"warmby/sim"
	"warmby/sim/heat"
)

// byPerson tells what each person does, one thing after the other, with when it
// begins.
func (r Rehearsal) byPerson() []Block {
	var list []Block
	for i, p := range r.Drill.People {
		var steps []Sentence
		told := ""
		for _, s := range r.People[i] {
			what := r.taskOrLookout(s)
			if what == "" || what == told {
				continue
			}
			told = what
			word := ""
			switch len(steps) {
			case 0:
				word = "first "
			case 1:
				word = "then "
			}
			steps = append(steps, Say("{}{} {}", word, what, r.site().At(s.From)))
		}
		if steps == nil {
			steps = []Sentence{Say("nothing to do")}
		}
		list = append(list, Text{Head: p.Name, Says: Briefly(sentenceEnd(Join(steps, ", "))), Item: true})
	}
	return list
}

// taskOrLookout names the task or the lookout of a stretch; "" for walks and waits.
func (r Rehearsal) taskOrLookout(s sim.Stretch) string {
	switch s.What {
	case sim.Working:
		return r.Drill.Tasks[s.Task].OwnName()
	case sim.Watching:
		return r.Drill.Lookouts[s.Lookout].Name
	}
	return ""
}

func sentenceEnd(s Sentence) Sentence { return append(s, Words(".")) }

// Signs in the strips that stand for no task.
const (
	signWaiting = "."
	signWalking = "-"
	signLookout = "="
)

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

// byCall returns the tasks in the sequence in which they were called, never
// called ones last.
func byCall(tl *sim.Timeline) []int {
	tasks := make([]int, len(tl.Tasks))
	for i := range tasks {
		tasks[i] = i
	}
	slices.SortStableFunc(tasks, func(a, b int) int { return cmp.Compare(tl.Tasks[a].Called, tl.Tasks[b].Called) })
	return tasks
}

// people shows a strip of what each person did, with totals.
func (r Rehearsal) people() []Block {
	s := Strips{Caption: "What each person does, along the drill", End: Length(r.End),
		Totals: []Column{{"working", true}, {"walking", true}, {"lookout", true}, {"waiting", true}},
		Legend: []Sentence{Say("A letter is a task (below), {} walking, {} lookout, {} waiting.", signWalking, signLookout, signWaiting)}}
	letter := letters(r.Timeline)
	for i, p := range r.Drill.People {
		row := Strip{Name: p.Name}
		var total [4]sim.Time // by kind
		for _, x := range r.People[i] {
			mark, what, kind := r.sign(x, letter)
			row.Spans = append(row.Spans, Span{Length(x.From), Length(x.To), mark, what, kind})
			total[kind] += x.To - x.From
		}
		for _, t := range total {
			row.Totals = append(row.Totals, Say("{}", Stopwatch(t)))
		}
		s.Rows = append(s.Rows, row)
	}
	return []Block{s}
}

// sign returns the mark of a stretch, its words and its kind.
func (r Rehearsal) sign(s sim.Stretch, letter []string) (mark, what string, kind Kind) {
	switch s.What {
	case sim.Working:
		return letter[s.Task], r.Drill.Tasks[s.Task].Name, Work
	case sim.Walking:
		return signWalking, "walking", Walk
	case sim.Watching:
		return signLookout, r.Drill.Lookouts[s.Lookout].Name, Lookout
	}
	return signWaiting, "waiting", Wait
}

// tasks tells who did what from when to when, with the picture of it.
func (r Rehearsal) tasks() []Block {
	t := Table{Caption: "Tasks: from when to when, and who",
		Columns: []Column{{}, {Head: "task"}, {"from", true}, {"to", true}, {"lasts", true}, {Head: "clock"}, {Head: "who"}}}
	letter := letters(r.Timeline)
	for _, i := range byCall(r.Timeline) {
		at, name := r.Tasks[i], r.Drill.Tasks[i].Name
		if at.Called == sim.Never {
			t.Rows = append(t.Rows, Cells("", name, "never"))
			continue
		}
		row := Cells(letter[i], name, Stopwatch(at.Start), Stopwatch(at.End), "", "", "")
		if at.End != sim.Never {
			row[4] = Say("{}", Stopwatch(at.End-at.Start))
		}
		if !r.Drill.Site.Arrival.IsZero() {
			row[5] = Say("{}", r.site().At(at.Start))
		}
		if r.Drill.Tasks[i].Crew.Max > 0 {
			row[6] = r.whoWasThere(i)
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{Picture{Drawing: r.Drawing, Caption: "The drill along the clock, by person", Table: t}}
}

// Drawing is the picture of a rehearsal. It marks what held up the finish.
func (r Rehearsal) Drawing() *plots.Picture {
	return plots.Drill(r.Timeline, plots.Options{Title: "Who does what, and when? " + r.title(), Critical: r.Critical(len(r.Milestones) - 1), Curves: heat.Curves(r.Timeline), Cold: r.Accounts})
}

// whoWasThere names those who were on a task: who joined it, from when; who was
// pulled away, until when.
func (r Rehearsal) whoWasThere(task int) Sentence {
	t := r.Tasks[task]
	var names []Sentence
	for _, p := range t.People {
		name := Say("{}", r.Drill.People[p].Name)
		from, to := sim.Never, sim.Time(0)
		for _, s := range r.People[p] {
			if s.What == sim.Working && s.Task == task {
				from, to = min(from, s.From), max(to, s.To)
			}
		}
		if from > t.Start && from != sim.Never {
			name = Say("{} from {}", name, Stopwatch(from))
		}
		if to < t.End && t.End != sim.Never && from != sim.Never {
			name = Say("{} to {}", name, Stopwatch(to))
		}
		names = append(names, name)
	}
	if names == nil {
		return Say("nobody")
	}
	return Listed(names)
}

// stoodTooLong names those who stood at a lookout for longer than it allows.
func (r Rehearsal) stoodTooLong() []Block {
	var list []Block
	for i, stretches := range r.People {
		for _, s := range stretches {
			if s.What != sim.Watching {
				continue
			}
			l := &r.Drill.Lookouts[s.Lookout]
			if stood := s.To - s.From; l.Longest > 0 && stood > l.Longest {
				list = append(list, Text{Item: true, Says: Say("{} stood at {} for {} from {} on; no longer than {} was asked for.",
					r.Drill.People[i].Name, l.Name, Length(stood), Since(s.From), Length(l.Longest))})
			}
		}
	}
	return list
}

// unstood names the lookouts that never began, and those that should have ended and
// did not.
func (r Rehearsal) unstood() []Block {
	var list []Block
	for i := range r.Drill.Lookouts {
		l := &r.Drill.Lookouts[i]
		from, until := r.Stood(i)
		says := Say("{} stands to the end: nothing that ends it ever began.", l.Name)
		switch {
		case from == sim.Never && len(l.FromTasks) > 0:
			says = Say("{} never began: what it begins with never ended.", l.Name)
		case from == sim.Never:
			says = Say("{} never began: the drill was over before {}.", l.Name, Since(l.From))
		case until <= from:
			says = Say("{} was not stood: it ended before it began.", l.Name)
		case len(l.UntilTasks) == 0 || until != sim.Never:
			continue
		}
		list = append(list, Text{Item: true, Says: says})
	}
	return list
}

// fuel tells what each kind of stove burned.
func (r Rehearsal) fuel() []Block {
	t := Table{Caption: "Fuel burned", Columns: []Column{{}, {Right: true}, {}, {}}}
	for _, u := range heat.Used(r.Timeline) {
		if u.Hours == 0 {
			continue
		}
		s := r.Drill.Stoves[u.Stove]
		amount := Say("heat of the fuel not known")
		switch {
		case u.Known:
			amount = Say("{}", fuelOf(u.Amount, u.ByMass))
		}
		lit := Say("lit for {} in all", Stopwatch(u.Hours*float64(sim.Hour)))
		if u.Known && u.Keeping > 0 {
			lit = Say("{}; {} of it to keep a shelter warm", lit, fuelOf(u.Keeping, u.ByMass))
		}
		t.Rows = append(t.Rows, append(Cells(s.Name, amount, s.Fuel), lit))
	}
	if t.Rows == nil {
		return nil
	}
	return []Block{t, Text{Says: Say("Until each stove is out, or else to the end of the drill; the night is not counted.")}}
}

func fuelOf(amount float64, byMass bool) Quantity {
	if byMass {
		return Quantity{Value: amount, Unit: "kg", Decimals: 2}
	}
	return Quantity{Value: amount, Unit: "L", Decimals: 2}
}

// dark says what the dark cost.
func (r Rehearsal) dark() []Block {
	if r.InLight == nil {
		return nil
	}
	var parts []Sentence
	for i, m := range r.Drill.Milestones {
		was, is := r.InLight.Milestones[i], r.Milestones[i]
		switch {
		case is == sim.Never && was == sim.Never:
		case is == sim.Never:
			parts = append(parts, Say("{} never instead of at {}", m.Name, Since(was)))
		case is > was:
			parts = append(parts, Say("{} {} later", m.Name, Length(is-was)))
		case is < was:
			parts = append(parts, Say("{} {} sooner (other people were free at other times)", m.Name, Length(was-is)))
		}
	}
	if len(parts) == 0 {
		return []Block{Text{Says: Say("Darkness delays nothing.")}}
	}
	return []Block{Text{Says: sentenceEnd(Say("Played again as if it stayed light, all else equal. The dark cost: {}", Join(parts, "; ")))}}
}
