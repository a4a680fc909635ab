package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/doubt"
	"warmby/sim/fit"
	"warmby/sim/stats"
)

// Fitted is what a stop-watch log says of a scenario, for its report.
type Fitted struct {
	*fit.Fitted
	Plans []fit.Plan
	Left  *fit.Left
	// Before and After are the scenario's drill, by the file and after the log.
	Before, After *fit.Foretold
	Luck          *fit.Foretold // after the log, with its middle values taken for true
	// Remarks are what the reader of the log says, in words.
	Remarks []string
	// Invented says that the log is not of drills that were done.
	Invented         bool
	Wrote            string   // the file that was written; "" for none
	LeftOut          []string // values that could not be written
	Repeat, Cautions string
}

// Report tells a fit.
func (r Fitted) Report() *Report {
	out := &Report{
		Title:    fmt.Sprintf("%s, %s timed", ShortTitle(r.Drill.Title), Count{len(r.Evenings), "drill"}.Write(People)),
		Subtitle: r.subtitle(), Repeat: r.Repeat, All: r.Repeat + " --all",
	}
	out.Warnings = r.warnings()
	var lines []Block
	for _, s := range []Sentence{r.shiftLine(), r.foretoldLine(), r.oddsLine()} {
		if !s.IsEmpty() {
			lines = append(lines, Text{Says: s})
		}
	}
	out.Lead = append([]Block{r.leadTable(most - titleHeadingsAndCautions - len(lines) - len(out.Warnings))}, lines...)
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	add(false, "What to plan with", r.everyTask(false))
	add(false, "Milestones, by the file and after the log", r.milestones())
	add(true, "Luck, and what the log leaves open", r.open())
	add(false, "Mishaps", r.mishaps())
	add(false, "Stoves", r.stoves())
	add(false, "What else makes work longer or shorter", r.factors())
	add(true, "Unloading", r.everyTask(true))
	add(true, "Paces against each other, in roster order", r.paces())
	add(false, "How well it foretells", r.coverage())
	add(true, "What was not used, or with care", r.unused())
	add(true, "How it is worked out", r.method())
	out.WithCautions(cold.Cautions(r.Drill, nil), r.Cautions)
	return out
}

func (r Fitted) subtitle() Sentence {
	var dates []string
	teams := map[string]bool{}
	var names []string
	for _, e := range r.Evenings {
		if e.Timed.Date != "" {
			dates = append(dates, e.Timed.Date)
		}
		if t := e.Timed.Team; t != "" && !teams[t] {
			teams[t] = true
			names = append(names, t)
		}
	}
	var parts []Sentence
	if len(dates) > 0 {
		parts = append(parts, Say("{} to {}", slices.Min(dates), slices.Max(dates)))
	}
	if len(names) > 0 {
		parts = append(parts, Say("{}: {}", plural("team", len(names)), Listed(sentences(names))))
	}
	return sentence(Join(parts, "; "))
}

func plural(one string, n int) string {
	if n == 1 {
		return one
	}
	return one + "s"
}

func sentences(texts []string) []Sentence {
	var out []Sentence
	for _, t := range texts {
		out = append(out, Say("{}", t))
	}
	return out
}

// warnings are one line: what is to be known of the log, in full with --all.
func (r Fitted) warnings() []Sentence {
	list := oneWarning(r.Invented, r.calledOff(), len(r.Evenings))
	if odd := r.odd(); len(odd) > 0 {
		list = append(list, odd[0])
	}
	if worse := r.worse(); !worse.IsEmpty() {
		list = append(list, worse)
	}
	return list
}

// Warnings are what must be known before the figures are used, in full.
func (r Fitted) Warnings() (list []string) {
	all := oneWarning(r.Invented, r.calledOff(), len(r.Evenings))
	for _, s := range append(append(all, r.odd()...), r.worse()) {
		if !s.IsEmpty() {
			list = append(list, s.Write(Full))
		}
	}
	return list
}

// odd names the lengths that look like mistakes in the log.
func (r Fitted) odd() (list []Sentence) {
	for _, one := range r.Odd() {
		e := r.Evenings[one.Drill]
		j := e.Timed.Jobs[one.Job]
		list = append(list, Briefly(Say("Is line {} right? Drill {}, {}: {}; to plan with {}.", fmt.Sprint(j.Line), e.Timed.Name, quote(r.name(j.Task)), Length(one.Log), Length(one.Plan))))
	}
	return list
}

// worse warns when the file foretells drills that were left out better than the
// other drills do, by whole minutes: their milestones, or lengths where no
// milestone was timed.
func (r Fitted) worse() Sentence {
	what, scores := "Milestones", r.Left.Milestones
	if len(scores) == 0 {
		what, scores = "Lengths", r.Left.Tasks
	}
	own, file := fit.MeanCRPS(scores)
	if own, file = math.Round(own), math.Round(file); own <= file {
		return nil
	}
	return Say("{}: the file foretells {} off here, the log {} off.", what, Length(minutesOf(file)), Length(minutesOf(own)))
}

// oneWarning puts what is to be known of a log into a line.
func oneWarning(invented bool, calledOff []Sentence, drills int) []Sentence {
	var parts []Sentence
	if invented {
		parts = append(parts, Say("This log is invented and says nothing of any team."))
	}
	if len(calledOff) > 0 {
		parts = append(parts, Say("Drill {} was called off.", Listed(calledOff)))
	}
	if drills < 3 {
		parts = append(parts, Say("{}: what to plan with is mostly the file's own.", Count{drills, "drill"}))
	}
	if len(parts) == 0 {
		return nil
	}
	return []Sentence{Join(parts, " ")}
}

// calledOff names the drills that were.
func (r Fitted) calledOff() []Sentence {
	var off []Sentence
	for _, e := range r.Evenings {
		if e.Timed.CalledOff {
			off = append(off, Say("{}", e.Timed.Name))
		}
	}
	return off
}

// leadTable has the tasks whose figures change most, by how much it matters.
func (r Fitted) leadTable(rows int) Table {
	t := Table{Caption: "Tasks whose length changes most", Columns: []Column{{}, {Head: "plan", Right: true}, {Head: "not", Right: true}, {Head: "log", Right: true}, {Head: "drills", Right: true}, {Head: "counted for"}}}
	plans := slices.Clone(r.Plans)
	slices.SortStableFunc(plans, func(a, b fit.Plan) int { return cmp.Compare(change(b), change(a)) })
	for _, p := range plans[:min(rows, len(plans))] {
		if p.Rows > 0 {
			t.Rows = append(t.Rows, Cells(r.name(p.Task), Length(p.Plan), Length(p.File), r.logSays(p), p.Rows, r.counted(p.Task)))
		}
	}
	return t
}

func (r Fitted) logSays(p fit.Plan) Sentence {
	if p.Log == 0 {
		return Say("-")
	}
	return Say("{}", Length(p.Log))
}

func change(p fit.Plan) float64 {
	if p.Rows == 0 {
		return -1
	}
	return math.Abs(float64(p.Plan - p.File))
}

func (r Fitted) name(task int) string { return r.Drill.Tasks[task].Name }

// counted says what a length counts.
func (r Fitted) counted(task int) Sentence {
	switch t := &r.Drill.Tasks[task]; {
	case t.Kind == sim.Work || t.Kind == sim.Timed && t.TimedPeople == 1:
		return Say("one person")
	case t.Kind == sim.Timed:
		return Say("{} people", t.TimedPeople)
	}
	return Say("the clock")
}

// shiftLine says how far all work is from the file, by an hour of it.
func (r Fitted) shiftLine() Sentence {
	middle, low, high := r.Shift()
	chance := ""
	if low < 1 && high > 1 {
		chance = " (or by chance)"
	}
	return Say("An hour's work by the file takes {} here{}; days differ by {} in the hour.",
		Length(minutesOf(60*middle)), chance, Length(minutesOf(60*r.Day())))
}

// foretoldLine says how well drills were foretold from the others.
func (r Fitted) foretoldLine() Sentence {
	c := fit.CoverOf(r.Left.Milestones, 0.8)
	if c.Drills < 2 {
		return Say("How well this foretells cannot be told from {}.", Count{len(r.Evenings), "drill"})
	}
	own, file := fit.MeanCRPS(r.Left.Milestones)
	return Say("Left out and foretold: {} of {} milestones in range, {} off (by the file {}).",
		int(math.Round(c.Value*float64(c.Count))), c.Count, Length(minutesOf(own)), Length(minutesOf(file)))
}

// fewLine says that there are too few drills to trust how well they were
// foretold.
func (r Fitted) fewLine() Sentence {
	c := fit.CoverOf(r.Left.Milestones, 0.8)
	if c.Drills < 2 || c.Low >= 0.6 {
		return nil
	}
	return Say("{}: this cannot tell {} from {}.", Count{c.Drills, "drill"}, Percent(0.8), Percent(0.6))
}

func minutesOf(v float64) sim.Time { return sim.Time(v * float64(sim.Minute)) }

// oddsLine says what the log does to the odds of the target that changes most.
func (r Fitted) oddsLine() Sentence {
	best, at := -1.0, -1
	for m := range r.Drill.Milestones {
		if by := r.Drill.Milestones[m].By; by != sim.Never {
			a, b := inTime(r.Before, m, by), inTime(r.After, m, by)
			if d := math.Abs(a.Value - b.Value); d > best {
				best, at = d, m
			}
		}
	}
	if at < 0 {
		return nil
	}
	m := r.Drill.Milestones[at]
	site := SiteOf(r.Drill)
	return Say("{} in time: {} by the file, {} after the log.", capital(m.Name),
		Share{Share: inTime(r.Before, at, m.By), Of: site.Many}, Share{Share: inTime(r.After, at, m.By)})
}

func inTime(f *fit.Foretold, m int, by sim.Time) stats.Share {
	n := int64(0)
	for _, at := range f.Milestones[m] {
		if at <= by {
			n++
		}
	}
	return stats.ShareOf(n, int64(len(f.Milestones[m])))
}

// everyTask has the tasks of the file, or all unloading.
func (r Fitted) everyTask(unloading bool) []Block {
	t := Table{Caption: "What the log says, what the file says, what to plan with", Columns: []Column{
		{}, {Head: "log", Right: true}, {Head: "file", Right: true}, {Head: "plan", Right: true}, {Head: "8 in 10"}, {Head: "drills", Right: true}, {Head: "file counts as", Right: true}, {Head: "counted for"}}}
	var unseen []Sentence
	for _, p := range r.Plans {
		if r.Drill.Tasks[p.Task].Unloads() != unloading {
			continue
		}
		if p.Rows == 0 {
			unseen = append(unseen, Say("{}", r.name(p.Task)))
			continue
		}
		t.Rows = append(t.Rows, Cells(r.name(p.Task), r.logSays(p), Length(p.File), Length(p.Plan), Say("{} to {}", Length(p.Low), Length(p.High)),
			p.Rows, Quantity{Value: p.Worth, Decimals: 1}, r.counted(p.Task)))
	}
	out := []Block{t, Text{Says: Say("The range is for the next drill, its day included. The file's figure counts as so many drills.")}}
	if len(t.Rows) == 0 {
		out = nil
	}
	if len(unseen) > 0 {
		out = append(out, Text{Head: "Not in the log", Says: Join(unseen, ", "), Item: true})
	}
	return out
}

func (r Fitted) milestones() []Block {
	site := SiteOf(r.Drill)
	t := Table{Caption: "Milestones by the file and after the log", Columns: []Column{{}, {Head: "file: usually"}, {Head: "9 of 10 by"}, {Head: "in time"}, {Head: "log: usually"}, {Head: "9 of 10 by"}, {Head: "in time"}}}
	for m, one := range r.Drill.Milestones {
		row := Cells(one.Name)
		for _, f := range []*fit.Foretold{r.Before, r.After} {
			in := Say("")
			if one.By != sim.Never {
				in = Say("{}", Share{Share: inTime(f, m, one.By)})
			}
			row = append(row, Say("{}", By{stats.QuantileOf(f.Milestones[m], 0.5), site}), Say("{}", By{stats.QuantileOf(f.Milestones[m], 0.9), site}), in)
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t}
}

// open tells luck from what the log leaves open.
func (r Fitted) open() []Block {
	site := SiteOf(r.Drill)
	t := Table{Caption: "Luck, and what the log leaves open", Columns: []Column{{}, {Head: "luck, 8 in 10"}, {Head: "and your numbers, 8 in 10"}}}
	for m, one := range r.Drill.Milestones {
		t.Rows = append(t.Rows, Cells(one.Name, ranged(site, doubt.RangeOf(r.Luck.Milestones[m])), ranged(site, doubt.RangeOf(r.After.Milestones[m]))))
	}
	return []Block{t}
}

func (r Fitted) mishaps() []Block {
	t := Table{Caption: "Mishaps", Columns: []Column{{}, {Head: "happened", Right: true}, {Head: "drills", Right: true}, {Head: "file", Right: true}, {Head: "plan", Right: true}, {Head: "8 in 10"}, {Head: "adds", Right: true}}}
	for _, c := range r.Chances {
		file := Say("-")
		if c.InFile {
			file = Say("{}", Percent(c.File))
		}
		adds := Say("?")
		if c.Adds > 0 {
			adds = Say("{}", Length(c.Adds))
		}
		name := r.name(c.Task)
		if c.Then {
			name += ", " + r.Drill.Tasks[c.Task].Mishap.When.String()
		}
		t.Rows = append(t.Rows, Cells(name, c.Happened, c.Drills, file, Percent(c.Mean()),
			Say("{} to {}", Percent(c.Quantile(0.1)), Percent(c.Quantile(0.9))), adds))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{t, Text{Says: Say("The file's chance counts as {} drills.", fit.MishapWorth)}}
}

func (r Fitted) stoves() []Block {
	t := Table{Caption: "Efficiency of stoves", Columns: []Column{{}, {Head: "file", Right: true}, {Head: "by time", Right: true}, {Head: "melts", Right: true}, {Head: "by fuel", Right: true}, {Head: "drills", Right: true}, {Head: "plan", Right: true}, {Head: "8 in 10"}}}
	orDash := func(n int, v float64) Sentence {
		if n == 0 {
			return Say("-")
		}
		return Say("{}", Percent(v))
	}
	for _, s := range r.Stoves {
		t.Rows = append(t.Rows, Cells(r.Drill.Stoves[s.Stove].Name, Percent(s.File), orDash(s.Melts, s.ByTime), s.Melts, orDash(s.Fuels, s.ByFuel), s.Fuels,
			Percent(s.Plan), Say("{} to {}", Percent(s.Low), Percent(s.High))))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{t, Text{Says: Say("Fuel counts only where no melt was timed.")}}
}

var factorWords = map[fit.FactorKind]string{
	fit.InTheDark: "in the dark, beyond what the file says", fit.IndoorDrill: "indoors", fit.LearningTeam: "a team that is new to it",
}

func (r Fitted) factors() []Block {
	var out []Block
	for j, x := range r.Factors {
		middle, low, high := r.FactorOf(j)
		switch x.Kind {
		case fit.LearningCurve:
			of := func(q float64) float64 {
				return fit.LearningRate(r.Over(q, func(d *fit.Draw) float64 { return d.Factor[j] }))
			}
			out = append(out, Text{Head: "Learning", Says: Say("twice as many drills of a team bring work to {} ({} to {}) of what it took.", Percent(of(0.5)), Percent(of(0.1)), Percent(of(0.9))), Item: true})
		case fit.OneTeam:
		default:
			out = append(out, Text{Head: capital(factorWords[x.Kind]), Says: Say("work takes {} ({} to {}) of what it takes else.", Percent(middle), Percent(low), Percent(high)), Item: true})
		}
	}
	if l := r.Learning; l.Tried && !l.Used {
		out = append(out, Text{Head: "Learning", Says: Say("a learning curve foretold the later drills no better, so none is used."), Item: true})
	} else if !l.Tried && len(r.Evenings) > 1 {
		out = append(out, Text{Head: "Learning", Says: Say("is looked for from six drills with dates on."), Item: true})
	}
	return out
}

func (r Fitted) paces() []Block {
	t := Table{Caption: "Paces against each other", Columns: []Column{{}, {Head: "file", Right: true}, {Head: "log", Right: true}, {Head: "8 in 10"}}}
	for i, p := range r.Drill.People {
		middle, low, high, ok := r.PaceOf(i)
		if !ok {
			return nil
		}
		own := float64(p.Pace) / 1000
		t.Rows = append(t.Rows, Cells(p.Name, Quantity{Value: own, Decimals: 2}, Quantity{Value: own * middle, Decimals: 2},
			Say("{} to {}", Quantity{Value: own * low, Decimals: 2}, Quantity{Value: own * high, Decimals: 2})))
	}
	return []Block{t, Text{Says: Say("Paces mean something only against each other, in these tasks on these days. They rank nobody.")}}
}

func (r Fitted) coverage() (out []Block) {
	t := Table{Caption: "How often ranges held in the drill that was left out", Columns: []Column{{}, {Head: "range", Right: true}, {Head: "held", Right: true}, {Head: "between"}, {Head: "of", Right: true}, {Head: "drills", Right: true}}}
	for _, one := range []struct {
		what   string
		scores []fit.Score
	}{{"lengths of tasks", r.Left.Tasks}, {"milestones", r.Left.Milestones}} {
		for _, level := range fit.Levels {
			c := fit.CoverOf(one.scores, level)
			if c.Drills < 2 {
				continue
			}
			t.Rows = append(t.Rows, Cells(one.what, Percent(level), Percent(c.Value), Say("{} to {}", Percent(c.Low), Percent(c.High)), c.Count, c.Drills))
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	tasks, fileTasks := fit.MeanCRPS(r.Left.Tasks)
	ms, fileMs := fit.MeanCRPS(r.Left.Milestones)
	if few := r.fewLine(); !few.IsEmpty() {
		defer func() { out = append(out, Text{Says: few}) }()
	}
	return []Block{t, Text{Says: Say("Each drill was left out and foretold from the others; a drill counts as one cluster, and the interval holds with 95 %.")},
		Text{Says: Say("Off on average (CRPS): lengths {}, by the file {}; milestones {}, by the file {}.", Length(minutesOf(tasks)), Length(minutesOf(fileTasks)), Length(minutesOf(ms)), Length(minutesOf(fileMs)))}}
}

func (r Fitted) unused() []Block {
	var out []Block
	if off := r.calledOff(); len(off) > 0 {
		out = append(out, Text{Head: "Called off", Says: Say("drill {}. What it had not done yet was likely going badly, so lengths may be longer than they look here; it is not foretold from the others.", Listed(off)), Item: true})
	}
	for i, e := range r.Evenings {
		for _, k := range r.Unused(i) {
			out = append(out, Text{Head: "Drill " + e.Timed.Name, Says: Say("{}: by the scenario it could not have begun before it ended, or a mishap of unknown length hides it.", r.name(e.Timed.Jobs[k].Task)), Item: true})
		}
	}
	for _, odd := range r.odd() {
		out = append(out, Text{Says: odd, Item: true})
	}
	for _, text := range r.Remarks {
		out = append(out, Text{Says: Say("{}", text), Item: true})
	}
	for _, text := range r.LeftOut {
		out = append(out, Text{Head: "Not written", Says: Say("{}", text), Item: true})
	}
	return out
}

func (r Fitted) method() []Block {
	says := "Lengths are lognormal; their level and spread lean on the file and on the other tasks (partial pooling), a day's effect is told apart, tasks that had not ended count as at least that long, mishaps are counted apart."
	if r.Through {
		says += " Where the log has no starts or no names, the drill was played so that each task ends when the log says, and starts followed from when crew and kit were there."
	}
	return []Block{Text{Says: Say("{}", says)}}
}
