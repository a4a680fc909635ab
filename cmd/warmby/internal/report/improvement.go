package report

import (
	"fmt"
	"math"
	"slices"
	"unicode/utf8"

	"warmby/plots"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/rehearse"
	"warmby/sim/search"
	"warmby/sim/stats"
)

// Improvement is what a search for a better order found, for its report.
type Improvement struct {
	*search.Result
	WhatIf string // searched by itself; "" for the scenario as it stands
	Seed   uint64 // of the fresh runs
	// Limited says that more was asked for than the aims; KeepCold that the cold
	// limit was.
	Limited, KeepCold bool
	// Unlucky says that runs were asked for and nothing is left to luck.
	Unlucky bool
	// InFile says that the order to beat is the sequence of the tasks in a file
	// without orders.
	InFile bool
	// Over and OverBefore name those who pass the cold limit with usual values,
	// under the best order and under the order to beat.
	Over, OverBefore []string
	// YAML holds each of the orders as it is pasted into a file; "" for those
	// that stand there.
	YAML []string
	// Played is the best order, played with usual values.
	Played *rehearse.Rehearsal
	Calls  []cold.Caution
	// Repeat and Cautions are commands: this one, and the one that prints the
	// cautions in full.
	Repeat, Cautions string
}

// narrow is how many characters a line of a lead should have at most; a longer
// one counts as two where a lead must end in time.
const narrow = 80

// mostWarnings is how many warnings a lead has; the others are told further down.
const mostWarnings = 2

// Report tells an improvement.
func (m Improvement) Report() *Report {
	out := &Report{Title: m.title(), Subtitle: m.subtitle(), Repeat: m.Repeat, All: m.Repeat + " --all"}
	room := most - 2 // the title and the cautions
	for _, w := range m.Warnings() {
		if len(out.Warnings) < mostWarnings && w.Short != nil {
			out.Warnings = append(out.Warnings, Say("Warning: {}.", Briefly(w.Short)))
			room -= linesOf(out.Warnings[len(out.Warnings)-1])
		}
	}
	out.Lead = m.lead(room)
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	add(false, "What every target pays", m.pays())
	add(false, "The changes that win most", m.wins())
	add(false, "Person by person, with "+m.named(m.Orders[0]), m.byPerson())
	add(false, "Must this come first? If not, write it after", m.pairs())
	add(true, "What was asked", m.asked())
	add(true, "Warnings", m.warningBlocks())
	add(true, "Gain, and what no order can beat", m.gains())
	add(true, m.frontHeading(), m.front())
	add(true, "With usual values", m.usual())
	add(true, "In each case", m.cases())
	m.orders(add)
	add(true, "Not told from the best", m.tied())
	add(true, "The order, drawn", m.drawn())
	add(true, "How to read it", m.reading())
	out.WithCautions(m.Calls, m.Cautions)
	return out
}

// toChoose reports whether there are several orders of which none is better in
// all.
func (m Improvement) toChoose() bool { return len(m.Aims) > 1 && len(m.Orders) > 1 }

func (m Improvement) site() Site { return SiteOf(m.Drill) }

func (m Improvement) title() string {
	title := ShortTitle(m.Drill.Title)
	best := m.Orders[0]
	switch {
	case m.toChoose():
		return title + ", orders to choose from"
	case best.Known != "":
		return title + ", no better order found"
	case m.Runs > 0 && !best.Over[0].Told && best.Over[0].Why == "":
		return title + ", an order level with the best of the file"
	}
	return title + ", a better order"
}

func (m Improvement) subtitle() Sentence {
	var parts []Sentence
	if !m.Drill.Site.Arrival.IsZero() {
		s := Say("Arrive {}", m.site().At(0))
		if dark := darkOf(m.Drill); !dark.IsEmpty() {
			s = Say("{}, {}", s, dark)
		}
		parts = append(parts, s)
	}
	switch {
	case m.WhatIf != "":
		parts = append(parts, Say("what if {}", quote(m.WhatIf)))
	case len(m.Cases) > 1:
		parts = append(parts, Say("the worst of {}", Count{m.CasesJudged(), "case"}))
	}
	return sentence(Join(parts, "; "))
}

// lead is the answer in at most so many lines: the gain, how often all is well,
// and each person's sequence as far as it fits, or else the changes that win
// most.
func (m Improvement) lead(room int) (lead []Block) {
	if m.toChoose() {
		return m.choice(room)
	}
	for k := range m.Aims {
		lead = append(lead, Text{Says: m.gain(k)})
	}
	if s := m.allWell(m.Orders[0]); !s.IsEmpty() {
		lead = append(lead, Text{Says: s})
	}
	for _, b := range lead {
		room -= linesOf(b.(Text).Says)
	}
	if people := m.firstTasks(); len(people) <= room {
		return append(lead, people...)
	}
	for _, s := range m.winLines() {
		if room -= linesOf(s); room >= 0 {
			lead = append(lead, Text{Says: s})
		}
	}
	return lead
}

// linesOf is how many lines a sentence takes at most.
func linesOf(s Sentence) int {
	return 1 + (utf8.RuneCountInString(s.Write(People))-1)/narrow
}

// choice is the lead of several aims: a table of the orders, and what each is
// good for is in its name.
func (m Improvement) choice(room int) []Block {
	t := Table{Caption: "Orders of which none is better in all", Columns: []Column{{}}}
	for _, a := range m.Aims {
		t.Columns = append(t.Columns, Column{Head: m.aimShort(a)})
	}
	well := m.someAllWell() && !slices.ContainsFunc(m.Aims, func(a search.Aim) bool { return a.Goal == search.AllWell })
	if well {
		t.Columns = append(t.Columns, Column{Head: m.wellWord()})
	}
	const headings, text = 2, 1
	shown := m.chosen(room - headings - text)
	for i, f := range shown {
		cells := Cells(f.Order.Name)
		for k := range m.Aims {
			cells = append(cells, m.value(k, f.Value[k], i == 0))
		}
		if well {
			cells = append(cells, m.share(f.Evenings.AllWell, i == 0))
		}
		t.Rows = append(t.Rows, cells)
	}
	says := Say("{} is the best of the file.", capital(m.named(m.Known)))
	if more := len(m.listed()) - len(shown); more > 0 {
		says = Say("{} {} with --all.", says, Count{more, "more order"})
	}
	return []Block{t, Text{Says: says}}
}

// chosen returns so many of the orders listed: the best at each aim and the best
// of the file before others.
func (m Improvement) chosen(most int) (out []search.Found) {
	list := m.listed()
	rank := func(f search.Found) int {
		for k := range m.Aims {
			if f.Order.Name == m.BestAt(k).Order.Name {
				return 0
			}
		}
		if f.Known != "" && f.Known == m.Known.Known {
			return 0
		}
		return 1
	}
	for wanted := range 2 {
		for _, f := range list {
			if rank(f) == wanted && len(out) < max(2, most) {
				out = append(out, f)
			}
		}
	}
	return out
}

// aimShort is an aim as the heading of a narrow column.
func (m Improvement) aimShort(a search.Aim) string {
	switch {
	case a.Goal.Share():
		return a.Goal.String()
	case m.Runs == 0 || a.Statistic == search.Mean:
		return m.Drill.Milestones[a.Milestone].Name
	}
	return m.Drill.Milestones[a.Milestone].Name + ", " + m.often(a)
}

// named names an order in a sentence.
func (m Improvement) named(f search.Found) string {
	if f.Known != "" && m.InFile {
		return "the sequence of the file"
	}
	return quote(f.Order.Name)
}

// best returns the order that is told of at an aim.
func (m Improvement) best(aim int) search.Found {
	if len(m.Aims) == 1 {
		return m.Orders[0]
	}
	return m.BestAt(aim)
}

// aim says an aim in words: "hot drink in 8 of 10 evenings".
func (m Improvement) aim(a search.Aim) string {
	if often := m.often(a); often != "" {
		return m.aimName(a) + " " + often
	}
	return m.aimName(a)
}

// often says in what sense a moment is meant.
func (m Improvement) often(a search.Aim) string {
	percent := math.Round(100 * float64(a.Statistic))
	switch {
	case a.Goal.Share() || m.Runs == 0:
		return ""
	case a.Statistic == search.Mean:
		return "on average"
	case math.Mod(percent, 10) == 0:
		return fmt.Sprintf("in %.0f of 10 %s", percent/10, m.site().Many)
	}
	return fmt.Sprintf("in %.0f of 100 %s", percent, m.site().Many)
}

// value writes what an order gives at an aim.
func (m Improvement) value(aim int, v float64, first bool) Sentence {
	switch {
	case m.Aims[aim].Goal.Share():
		return m.share(1-v, first)
	case math.IsInf(v, 1):
		return Say("never")
	}
	return Say("{}", m.site().Came(millis(v)))
}

// share writes a share of the evenings; first names them.
func (m Improvement) share(v float64, first bool) Sentence {
	if m.Runs == 0 {
		if v == 1 {
			return Say("yes")
		}
		return Say("no")
	}
	s := Share{Share: stats.ShareOf(int64(math.Round(v*float64(m.Runs))), int64(m.Runs))}
	if first {
		s.Of = m.site().Many
	}
	return Say("{}", s)
}

// someAllWell reports whether there are targets or an account of cold.
func (m Improvement) someAllWell() bool { return m.hasTargets() || m.Known.Evenings.Cold }

func (m Improvement) hasTargets() bool {
	return slices.ContainsFunc(m.Drill.Milestones, func(ms sim.Milestone) bool { return ms.By != sim.Never })
}

// wellWord says what all well means here.
func (m Improvement) wellWord() string {
	switch {
	case !m.Known.Evenings.Cold:
		return "all in time"
	case !m.hasTargets():
		return "nobody too cold"
	}
	return "all well"
}

// gain says what is gained at an aim against the best order of the file.
func (m Improvement) gain(k int) Sentence {
	a, best, g := m.Aims[k], m.best(k), m.best(k).Over[k]
	file := Say("{}, the best of the file", m.named(m.Known))
	if m.InFile || k > 0 {
		file = Say("{}", m.named(m.Known))
	}
	is := Say("{} {}", capital(m.aimName(a)), m.value(k, best.Value[k], true))
	if often := m.often(a); often != "" {
		is = Say("{} {}", is, often)
	}
	if a.Goal.Share() {
		is = Say("{}: {}", capital(m.aimName(a)), m.value(k, best.Value[k], true))
	}
	switch {
	case math.IsInf(best.Value[k], 1):
		return Say("{}: never, or too seldom, with every order tried.", capital(m.aimName(a)))
	case best.Known != "" && best.Known == m.Known.Known || g.Why == "" && g.Value == 0:
		return Say("{}. Nothing better than {} was found.", is, m.named(m.Known))
	case a.Goal.Share():
		return m.gainOfGoal(k, best, file)
	case g.Why != "":
		return Say("{}; with {} never, or too seldom.", is, file)
	}
	by := millis(g.Value)
	switch {
	case m.Runs > 0 && m.Runs < stats.FewRuns:
		return Say("{}: too few runs to tell it from {}.", is, file)
	case m.Runs > 0 && !g.Told || roundTo(by, sim.Minute) == 0:
		return Say("{}: level with {}.", is, file)
	}
	return Say("{}: {} than with {}{}.", is, Briefly(sooner(by)), file, m.price(g))
}

// aimName is what an aim is about.
func (m Improvement) aimName(a search.Aim) string {
	if a.Goal.Share() {
		return a.Goal.String()
	}
	return m.Drill.Milestones[a.Milestone].Name
}

func (m Improvement) gainOfGoal(k int, best search.Found, file Sentence) Sentence {
	now, was, g := m.value(k, best.Value[k], true), m.value(k, m.Known.Value[k], false), best.Over[k]
	name := capital(m.aimName(m.Aims[k]))
	s := Say("{}: {}; with {}: {}", name, now, file, was)
	switch {
	case m.Runs == 0:
		return Say("{} with usual values: {}; with {}: {}.", name, now, file, was)
	case m.Runs < stats.FewRuns:
		return Say("{}. Too few runs to tell.", s)
	case !g.Told:
		return Say("{}. That is level.", s)
	case was.Write(People) == m.value(k, best.Value[k], false).Write(People):
		return Say("{}: {}, a little more often than with {}.", name, now, file)
	}
	return Say("{}.", s)
}

// price says why what was found may be later than what there was.
func (m Improvement) price(g search.Gain) string {
	if g.Value >= 0 || !m.Limited {
		return ""
	}
	return ", the price of keeping nearer to what is asked for"
}

// allWell says how often all is well with an order, and what of it fails.
func (m Improvement) allWell(f search.Found) Sentence {
	if !m.someAllWell() {
		return nil
	}
	if m.Runs == 0 {
		return m.allWellUsually(f)
	}
	e, told := f.Evenings, len(m.Aims) == 1 && m.Aims[0].Goal == search.AllWell
	parts := Say("In time: {}. Nobody too cold: {}.", m.share(e.AllTargets, told), m.share(e.NobodyCold, false))
	both := e.Cold && m.hasTargets()
	switch {
	case told && both:
		return parts
	case told:
		return nil
	}
	s := Say("{}: {}", capital(m.wellWord()), m.share(e.AllWell, true))
	if f.Known != m.Known.Known || f.Known == "" {
		s = Say("{} (was {})", s, m.share(m.Known.Evenings.AllWell, false))
	}
	if both {
		return Say("{}. {}", s, parts)
	}
	return sentence(s)
}

func (m Improvement) allWellUsually(f search.Found) Sentence {
	late, cool := "everything in time", "nobody too cold"
	if f.Evenings.AllTargets < 1 {
		late = "not everything in time"
	}
	if f.Evenings.NobodyCold < 1 {
		cool = "somebody too cold"
	}
	switch m.wellWord() {
	case "all in time":
		return Say("With usual values {}; most {} are slower.", late, m.site().Many)
	case "nobody too cold":
		return Say("With usual values {}; most {} are slower.", cool, m.site().Many)
	}
	return Say("With usual values {}, {}; most {} are slower.", late, cool, m.site().Many)
}

// firstTasks is a line for each person: what comes first, as far as it fits.
func (m Improvement) firstTasks() (list []Block) {
	for who, tasks := range m.Orders[0].People {
		line := m.Drill.People[who].Name + ": "
		for k, task := range tasks {
			name := m.Drill.Tasks[task].OwnName()
			word := ", " + name
			switch k {
			case 0:
				word = "first " + name
			case 1:
				word = ", then " + name
			}
			if utf8.RuneCountInString(line+word) > narrow-len(", ..") {
				line += ", .."
				break
			}
			line += word
		}
		if len(tasks) == 0 {
			line += "no task"
		}
		list = append(list, Text{Says: Say("{}", line)})
	}
	return list
}

// byPerson tells what each person does with the best order, with usual values.
func (m Improvement) byPerson() []Block {
	if m.toChoose() {
		return nil
	}
	return m.played().byPerson()
}

func (m Improvement) played() Rehearsal { return Rehearsal{Rehearsal: m.Played} }

// drawn is the best order along the clock.
func (m Improvement) drawn() []Block {
	if m.toChoose() {
		return []Block{Picture{Drawing: m.Drawing, Caption: "Orders by what was aimed at", Table: m.frontTable()}}
	}
	return m.played().tasks()
}

// Drawing is the picture of what was found: with one aim the order along the
// clock, with several the orders by pairs of aims, in minutes or in evenings
// of 100 that fail.
func (m Improvement) Drawing() *plots.Picture {
	if !m.toChoose() {
		return m.played().Drawing()
	}
	in := plots.FrontInput{Title: "Which order for what?", Lead: m.Drill.Title, Foot: "Played by: " + m.Repeat}
	for _, a := range m.Aims {
		unit := "min"
		name := m.aim(a)
		if a.Goal.Share() {
			name, unit = "not "+name, "of 100"
		}
		in.Aims = append(in.Aims, plots.Aim{Name: name, Unit: unit})
	}
	for _, f := range m.listed() {
		o := plots.FrontOrder{Name: f.Order.Name}
		for k, v := range f.Value {
			if m.Aims[k].Goal.Share() {
				o.Values = append(o.Values, 100*v)
			} else {
				o.Values = append(o.Values, v/float64(sim.Minute))
			}
		}
		in.Orders = append(in.Orders, o)
	}
	return plots.Front(in)
}

// listed returns the orders found and, where it is none of them, the best of the
// file.
func (m Improvement) listed() []search.Found {
	for _, f := range m.Orders {
		if f.Known != "" && f.Known == m.Known.Known {
			return m.Orders
		}
	}
	return append(slices.Clone(m.Orders), m.Known)
}
