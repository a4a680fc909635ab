package report

import (
	"cmp"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Comparison is what came of the orders of a scenario under the same luck, for
// its report.
type Comparison struct {
	Drill   *sim.Drill // the first, for what all have in common
	Seed    uint64
	Runs    int           // of each order
	Until   *compare.Told // how they came to be so many; nil when that was settled before
	Primary []int         // milestones that it is about
	Drawn   bool          // whether anything is left to luck
	AsIs    *Bout
	WhatIfs []*Bout
	LeftOut [][]compare.LeftOut // by order
	Moves   []*compare.Moves    // by order, of the primary milestones; nil where not asked
	Luck    [][]compare.Luck    // by order, then primary milestone; nil where not asked
	Doubted *DoubtedBout        // nil where there is nothing to doubt
	All     []cold.Caution      // that all which was played calls for
	// StopTold leaves out the stop that all orders come to, which is told before.
	StopTold bool
	// Repeat and Cautions are commands: this one, and the one that prints the
	// cautions in full.
	Repeat, Cautions string
}

// Bout is all orders held against each other, in the scenario as it stands or as
// a what-if changes it.
type Bout struct {
	WhatIf string // "" as it stands
	*compare.Standing
	Cold []*compare.Cold
	Well []compare.Well
}

// Report tells a comparison.
func (c Comparison) Report() *Report {
	out := &Report{Title: c.title(), Subtitle: c.subtitle(), Repeat: c.Repeat, All: c.Repeat + " --all"}
	for _, w := range c.Warnings() {
		out.Warnings = append(out.Warnings, Say("Warning: {}", w))
	}
	out.Lead = c.lead()
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	add(false, "When: usually / 9 of 10 by / in time", c.whole())
	add(false, "What if", c.whatIfsShort())
	add(false, Doubted, c.doubted())
	add(false, "How far apart", c.apart(c.AsIs))
	add(false, "What holds it up", c.movesShort())
	add(false, "What can wait", c.canWaitShort())
	c.inFull(add)
	out.WithCautions(c.All, c.Cautions)
	return out
}

// inFull adds what only whoever asks for everything reads.
func (c Comparison) inFull(add func(more bool, heading string, blocks []Block)) {
	add(true, "Drill", c.facts())
	add(true, "When, in full", c.when(c.AsIs))
	add(true, "How near the best, in full", c.nearBestInFull())
	add(true, "Cold", c.coldTable(c.AsIs))
	for _, w := range c.WhatIfs {
		name := "What if " + quote(w.WhatIf)
		add(true, name+": how far apart", c.apart(w))
		add(true, name+": sooner or later than as it stands", c.changes(w))
		add(true, name+": when, in full", c.when(w))
		add(true, name+": cold", c.coldTable(w))
	}
	add(true, "What can wait: sooner without it", c.canWait())
	add(true, "What moves it", c.moves())
	add(true, Doubted+", in full", c.doubtedInFull())
	add(true, "How to read it", c.method())
}

func (c Comparison) site() Site { return SiteOf(c.Drill) }

func (c Comparison) title() string {
	title := ShortTitle(c.Drill.Title)
	if len(c.AsIs.Played) == 1 && c.Drill.Order != "" {
		title += fmt.Sprintf(", %q", c.Drill.Order)
	}
	return title
}

func (c Comparison) subtitle() Sentence {
	var parts []Sentence
	if !c.Drill.Site.Arrival.IsZero() {
		s := Say("Arrive {}", c.site().At(0))
		if dark := darkOf(c.Drill); !dark.IsEmpty() {
			s = Say("{}, {}", s, dark)
		}
		parts = append(parts, s)
	}
	switch n := len(c.AsIs.Played); {
	case c.Doubted != nil && c.Doubted.Numbers.Drills > 0:
		parts = append(parts, timedWords(c.Doubted.Numbers))
	case n > 1:
		parts = append(parts, Say("{} orders", n))
	}
	return sentence(Join(parts, "; "))
}

// facts says what was played.
func (c Comparison) facts() []Block {
	orders := Say("tasks in file order")
	switch n := len(c.AsIs.Played); {
	case n > 1:
		orders = Say("{} orders under the same luck", n)
	case c.Drill.Order != "":
		orders = Say("order {}", quote(c.Drill.Order))
	}
	parts := []Sentence{Say("{}", c.Drill.Title), orders, Say("{} of each, seed {}", Count{c.Runs, "run"}, fmt.Sprint(c.Seed))}
	if !c.Drill.Site.Arrival.IsZero() {
		parts = append(parts, Say("arrival {}", Date(c.Drill.Site.Arrival)))
	}
	blocks := []Block{Text{Says: sentence(Join(parts, "; "))}}
	if u := c.Until; u != nil {
		told := "until all orders were told apart"
		if !u.All {
			told = "and not all orders were told apart"
		}
		blocks = append(blocks, Text{Says: Say("Looked at after {}, and each time there were twice as many, up to {} at most, {}: intervals are wider for it, and hold at every look, but for those of what decides a milestone and of cold, which are as of one look (help odds).",
			Count{u.First, "run"}, Count{u.Most, "run"}, told)})
	}
	return blocks
}

// RareWarning says what so few runs see too seldom.
func RareWarning(r *compare.Rare, runs int) Sentence {
	what := Say("the mishap of {}", quote(r.Name))
	if r.Weather {
		what = Say("the weather {}", quote(r.Name))
	}
	return Say("only {} of {} meet {}; ask for {}",
		Quantity{Value: r.Expected, Decimals: map[bool]int{true: 1}[r.Expected < 1]}, Count{runs, "run"}, what, r.Enough)
}

// Warnings says what should keep readers from leaning on the figures.
func (c Comparison) Warnings() (list []Sentence) {
	if few := stats.ShareOf(0, int64(c.Runs)).Warning; few != "" {
		list = append(list, Say("{}", few))
	}
	list = append(list, c.rare()...)
	if !c.Drawn {
		list = append(list, Say("nothing in this scenario is left to luck: every run is the same, and intervals say nothing"))
	}
	if !c.StopTold || !c.AsIs.allStop(c.Runs) {
		list = append(list, c.AsIs.stops(c.Runs)...)
	}
	for _, w := range c.WhatIfs {
		list = append(list, w.stops(c.Runs)...)
	}
	return list
}

// rare says what so few runs see too seldom: as it stands, and else in the first
// what-if in which that is so.
func (c Comparison) rare() []Sentence {
	if rare := compare.RarestOf(c.Drill, c.Runs); rare != nil {
		return []Sentence{RareWarning(rare, c.Runs)}
	}
	for _, w := range c.WhatIfs {
		if rare := compare.RarestOf(w.Played[0].Drill, c.Runs); rare != nil {
			return []Sentence{Say("what if {}: {}", quote(w.WhatIf), RareWarning(rare, c.Runs))}
		}
	}
	return nil
}

// Skewed says which means, as it stands, are not well known for so few runs. People
// are told quantiles, which need no such warning.
func (c Comparison) Skewed() (list []Sentence) {
	for m := range c.AsIs.Odds {
		list = append(list, c.skewedAt(c.AsIs, m)...)
	}
	return list
}

func (c Comparison) skewedAt(w *Bout, m int) (list []Sentence) {
	for i, o := range w.Odds[m] {
		if o.Enough > 0 {
			list = append(list, SkewWarning(Say("{} with {}", c.Drill.Milestones[m].Name, w.order(i)), c.Runs, o.Enough))
		}
	}
	return list
}

// SkewWarning says of which mean so few runs are too few.
func SkewWarning(of Sentence, runs int, enough int64) Sentence {
	return Say("the mean of {} is not well known from {}, for now and then it comes very late; ask for {}", of, Count{runs, "run"}, Count{int(enough), "run"})
}

// allStop reports whether all orders come to the same stop in every run.
func (w *Bout) allStop(runs int) bool {
	return !slices.ContainsFunc(w.Played, func(p *compare.Played) bool {
		return p.Stopped < runs || p.Stop.Error() != w.Played[0].Stop.Error()
	})
}

// stops says which orders come to a stop, and at what.
func (w *Bout) stops(runs int) (list []Sentence) {
	first := w.Played[0]
	if len(w.Played) > 1 && w.allStop(runs) {
		what := Say("every order")
		if w.WhatIf != "" {
			what = Say("what if {}: every order", quote(w.WhatIf))
		}
		return []Sentence{Say("{} comes to a stop in every run ({}); what is not reached by then counts as never", what, first.Stop.Error())}
	}
	for i, p := range w.Played {
		switch {
		case p.Stopped == runs:
			list = append(list, Say("{}comes to a stop in every run ({}); what is not reached by then counts as never", w.drillName(i), p.Stop.Error()))
		case p.Stopped > 0:
			list = append(list, Say("{}came to a stop in {} of {} runs, first in run {} ({}); what was not reached by then counts as never",
				w.drillName(i), p.Stopped, runs, p.StopRun, p.Stop.Error()))
		}
	}
	return list
}

// drillName names one drill in front of a verb.
func (w *Bout) drillName(order int) string {
	name := "the drill "
	if own := w.Played[order].Drill.Order; own != "" {
		name = fmt.Sprintf("order %q ", own)
	}
	if w.WhatIf != "" {
		name += fmt.Sprintf("(what if %q) ", w.WhatIf)
	}
	return name
}

// order names an order as sentences do, in quotation marks.
func (w *Bout) order(i int) string {
	if own := w.Played[i].Drill.Order; own != "" {
		return quote(own)
	}
	return "file order"
}

// heading names an order in a table.
func (w *Bout) heading(i int) string { return cmp.Or(w.Played[i].Drill.Order, "file order") }

// lead has the orders in a table, the best first, and one sentence: which to
// take for what.
func (c Comparison) lead() []Block {
	if len(c.AsIs.Played) == 1 {
		return c.leadOfOne()
	}
	says := c.take(c.AsIs)
	const titleHeadingsAndCautions = 3
	rows := max(2, most-titleHeadingsAndCautions-lines(says))
	return []Block{c.leadTable(rows), Text{Says: says}}
}

// leadTable has a row for each order, and a column for each milestone that it
// is about; those that are in time least often are kept longest.
func (c Comparison) leadTable(rows int) Table {
	w := c.AsIs
	t := Table{Caption: "By when each order reaches what in 9 of 10 " + c.site().Many + ", and how often all is well",
		Columns: []Column{{Head: "9 of 10 by"}}}
	for _, m := range c.Primary {
		t.Columns = append(t.Columns, Column{Head: c.Drill.Milestones[m].Name})
	}
	for _, k := range byUrgency(w, c.Primary)[1:] {
		t.Spare = append(t.Spare, 1+k)
	}
	shares := c.wellColumns(w)
	for _, s := range shares {
		t.Columns = append(t.Columns, Column{Head: s.head})
	}
	for _, i := range c.leadOrders(rows) {
		row := Cells(w.order(i))
		for _, m := range c.Primary {
			row = append(row, Say("{}", By{w.Odds[m][i].Quantiles[compare.NineOfTen], c.site()}))
		}
		for _, s := range shares {
			row = append(row, Say("{}", Share{Share: *s.of(&w.Well[i])}))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// byUrgency returns places in a list of milestones, those that all orders are
// in time for least often first.
func byUrgency(w *Bout, milestones []int) []int {
	list := make([]int, len(milestones))
	inTime := func(m int) (n int64) {
		for i := range w.Odds[m] {
			if on := w.Odds[m][i].OnTime; on != nil {
				n += on.Count
			} else {
				n += int64(len(w.Played[i].Times[m])) + 1
			}
		}
		return n
	}
	for k := range list {
		list[k] = k
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(inTime(milestones[a]), inTime(milestones[b])) })
	return list
}

// wellColumn is one of the shares of runs in which all is well, or half of it.
type wellColumn struct {
	head string
	of   func(*compare.Well) *stats.Share
}

// wellColumns lists what there is to tell of it.
func (c Comparison) wellColumns(w *Bout) (list []wellColumn) {
	all := []wellColumn{
		{"all in time", func(w *compare.Well) *stats.Share { return w.Targets }},
		{"nobody too cold", func(w *compare.Well) *stats.Share { return w.NobodyCold }},
	}
	for _, col := range all {
		if !slices.ContainsFunc(w.Well, func(one compare.Well) bool { return col.of(&one) == nil }) {
			list = append(list, col)
		}
	}
	if len(list) == 2 {
		list = append(list, wellColumn{"all well", func(w *compare.Well) *stats.Share { return w.All }})
	}
	return list
}

// leadOrders chooses the orders of the lead, the best first: those that the
// sentence names, then those in which all is well most often.
func (c Comparison) leadOrders(rows int) []int {
	w := c.AsIs
	list := w.Ranking(c.Primary[byUrgency(w, c.Primary)[0]])
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(allWell(&w.Well[b]), allWell(&w.Well[a])) })
	if len(list) <= rows {
		return list
	}
	named := c.named(w)
	var shown []int
	for _, must := range []bool{true, false} {
		for _, i := range list {
			if slices.Contains(named, i) == must && len(shown) < rows {
				shown = append(shown, i)
			}
		}
	}
	slices.SortFunc(shown, func(a, b int) int { return cmp.Compare(slices.Index(list, a), slices.Index(list, b)) })
	return shown
}

func allWell(w *compare.Well) float64 {
	if w.All == nil {
		return 0
	}
	return w.All.Value
}

// leadOfOne has the milestones of a single order, and how often all is well.
func (c Comparison) leadOfOne() []Block {
	w := c.AsIs
	t := Table{Caption: "When each milestone is reached", Columns: []Column{{}, {Head: "usually"}, {Head: "9 of 10 by"}, {Head: "in time"}, {}}}
	const titleHeadingsWellAndCautions = 4
	for _, m := range c.Primary[:min(len(c.Primary), most-titleHeadingsWellAndCautions)] {
		o := &w.Odds[m][0]
		row := Cells(c.Drill.Milestones[m].Name, By{o.Quantiles[0], c.site()}, By{o.Quantiles[compare.NineOfTen], c.site()})
		if o.OnTime != nil {
			row = append(row, Say("{}", Share{Share: *o.OnTime}), target(c.Drill, m))
		}
		t.Rows = append(t.Rows, row)
	}
	blocks := []Block{t}
	if s := c.wellLine(w, 0); !s.IsEmpty() {
		blocks = append(blocks, Text{Says: s})
	}
	return blocks
}

// wellLine says how often all is well with one order.
func (c Comparison) wellLine(w *Bout, order int) Sentence {
	var parts []Sentence
	for _, col := range c.wellColumns(w) {
		parts = append(parts, Say("{} in {}", col.head, Share{Share: *col.of(&w.Well[order]), Of: c.site().Many}))
	}
	return sentence(Join(parts, "; "))
}
