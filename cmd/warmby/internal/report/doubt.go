package report

import (
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/doubt"
	"warmby/sim/halt"
)

// Doubted heads what is told of luck and numbers.
const Doubted = "Luck, and your numbers"

// doubts tells, for each milestone, what is luck and what lies in the numbers;
// nothing where there is nothing to doubt.
func doubts(d *sim.Drill, open []doubt.Doubt, of doubt.Numbers) []Block {
	if open == nil {
		return nil
	}
	t := Table{Caption: "What is luck, and what lies in your numbers", Columns: []Column{{}, {Head: "luck, 8 in 10"}, {Head: "and your numbers, 8 in 10"}}}
	for m, one := range open {
		t.Rows = append(t.Rows, Cells(d.Milestones[m].Name, ranged(SiteOf(d), one.Luck), ranged(SiteOf(d), one.Numbers)))
	}
	return []Block{t, Text{Says: numbersAre(of)}}
}

// ranged writes from when to when something comes.
func ranged(site Site, r doubt.Range) Sentence {
	return Say("{} to {}", site.Came(r.Low), site.Came(r.High))
}

// numbersAre says how the numbers were doubted.
func numbersAre(of doubt.Numbers) Sentence {
	if of.Drills > 0 {
		return Say("Your numbers are those of a log of {}, with all that it leaves open. More drills narrow it down.", Count{of.Drills, "drill"})
	}
	return Say("Your numbers are doubted like this: quick and slow hold in 8 of 10 cases only, as most do that people say. Time your drills, and --log narrows it down.")
}

// timedWords says that numbers come from a log; empty when they do not.
func timedWords(of doubt.Numbers) Sentence {
	if of.Drills == 0 {
		return nil
	}
	return Say("numbers of {}", Count{of.Drills, "timed drill"})
}

// DoubtedBout is all orders played with the numbers doubted.
type DoubtedBout struct {
	Numbers doubt.Numbers
	Runs    int
	Played  []*compare.Played
	Well    []compare.Well
}

// Choice is what an order is taken for, and whether the numbers bear it out.
type Choice struct {
	For   string // all well, or a milestone
	Order int
	Holds bool  // it is best, or level with the best, with the numbers doubted too
	Best  []int // then: the best, and those level with it; nil where it hardly ever is in time
}

// Choices lists what the comparison takes which order for.
func (c Comparison) Choices() (list []Choice) {
	for _, p := range picks(c.goals(c.AsIs)) {
		for _, g := range p.goals {
			one := Choice{For: g.what, Order: p.order, Best: c.doubtedBest(g)}
			one.Holds = slices.Contains(one.Best, p.order)
			list = append(list, one)
		}
	}
	return list
}

// doubtedBest returns the orders that are best at a goal with the numbers
// doubted.
func (c Comparison) doubtedBest(g goal) []int {
	if g.milestone < 0 {
		return compare.MostOftenWell(c.Doubted.Well)
	}
	if best := compare.MostOftenInTime(c.Doubted.Played, g.milestone); best != nil {
		return best
	}
	return compare.SoonestOnAverage(c.Doubted.Played, g.milestone)
}

// doubted tells how the orders stand with the numbers doubted, and whether the
// choice holds.
func (c Comparison) doubted() []Block {
	if c.Doubted == nil {
		return nil
	}
	blocks := []Block{c.doubtedTable()}
	if s := c.holds(); !s.IsEmpty() {
		blocks = append([]Block{Text{Says: s}}, blocks...)
	}
	return blocks
}

// doubtedTable has how often all is well with each order; where nobody asks for
// that, when it reaches the first milestone that it is about.
func (c Comparison) doubtedTable() Table {
	w := c.AsIs
	t := Table{Caption: "How orders stand by luck, and with your numbers doubted", Columns: []Column{{}, {}, {Head: "and your numbers"}}}
	columns := c.wellColumns(w)
	if len(columns) > 0 {
		well := columns[len(columns)-1]
		t.Columns[1].Head = well.head + ": luck"
		for i := range w.Played {
			t.Rows = append(t.Rows, Cells(w.order(i), Share{Share: *well.of(&w.Well[i])}, Share{Share: *well.of(&c.Doubted.Well[i])}))
		}
		return t
	}
	m := c.Primary[0]
	t.Columns[1].Head = c.Drill.Milestones[m].Name + ", 8 in 10: luck"
	for i := range w.Played {
		one := doubt.Of(w.Played[i], c.Doubted.Played[i])[m]
		t.Rows = append(t.Rows, Cells(w.order(i), Briefly(ranged(c.site(), one.Luck)), Briefly(ranged(c.site(), one.Numbers))))
	}
	return t
}

// holds says whether the choice of order holds with the numbers doubted.
func (c Comparison) holds() Sentence {
	var holding, others []Sentence
	for _, one := range c.Choices() {
		switch {
		case one.Holds:
			holding = append(holding, Say("{}", one.For))
		case one.Best == nil:
			others = append(others, Say("{} comes hardly ever then", one.For))
		default:
			others = append(others, Say("for {} it is then {}", one.For, c.AsIs.orders(one.Best)))
		}
	}
	switch {
	case len(holding)+len(others) == 0 || len(c.AsIs.Played) < 2:
		return nil
	case others == nil:
		return Say("With your numbers doubted the choice of order stays the same.")
	case holding == nil:
		return Say("With your numbers doubted the choice changes: {}.", Join(others, "; "))
	}
	return Say("With your numbers doubted the choice stays for {}; {}.", Listed(holding), Join(others, "; "))
}

// doubtedInFull has every milestone under every order.
func (c Comparison) doubtedInFull() (list []Block) {
	if c.Doubted == nil {
		return nil
	}
	open := make([][]doubt.Doubt, len(c.AsIs.Played))
	for i, p := range c.AsIs.Played {
		open[i] = doubt.Of(p, c.Doubted.Played[i])
	}
	for m, milestone := range c.Drill.Milestones {
		t := Table{Caption: "What is luck at " + milestone.Name + ", and what lies in your numbers",
			Columns: []Column{{}, {Head: "luck, 8 in 10"}, {Head: "and your numbers, 8 in 10"}}}
		for i := range c.AsIs.Played {
			t.Rows = append(t.Rows, Cells(c.AsIs.heading(i), ranged(c.site(), open[i][m].Luck), ranged(c.site(), open[i][m].Numbers)))
		}
		list = append(list, Text{Says: Say("{}:", capital(milestone.Name))}, t)
	}
	return append(list, Text{Says: Say("{} Both under the same luck, your numbers in the first {}.", numbersAre(c.Doubted.Numbers), Count{c.Doubted.Runs, "run"})})
}

// doubted says what becomes of the sure moment with the numbers doubted.
func (h Halts) doubted() Sentence {
	o := h.first()
	if o.Doubted == nil {
		return nil
	}
	return h.moved(o)
}

// moved says by when to halt with the numbers of a case and order doubted.
func (h Halts) moved(o Halting) Sentence {
	sure, now := h.sure(o.Answer), h.sure(o.Doubted)
	switch {
	case now < 0 && o.Doubted.Latest() < 0:
		return Say("With your numbers doubted: at no arrival tried.")
	case now < 0:
		return Say("With your numbers doubted none is sure; {} is the toss-up.", h.when(o.Doubted.Latest()))
	case sure == now:
		return Say("With your numbers doubted: the same.")
	case sure < 0:
		return Say("With your numbers doubted: {} by {}.", h.act(), h.when(now))
	}
	way, by := "sooner", h.Arrivals[sure]-h.Arrivals[now]
	if by < 0 {
		way, by = "later", -by
	}
	return Say("With your numbers doubted: {} by {}, {} {}.", h.act(), h.when(now), Length(by), way)
}

// doubtedTable has the sure moment and the toss-up of each case under each order.
func (h Halts) doubtedTable() []Block {
	if h.first().Doubted == nil {
		return nil
	}
	t := Table{Caption: "The latest " + h.act() + " by luck, and with your numbers doubted", Columns: []Column{
		{}, {Head: "order"}, {Head: "luck: sure"}, {Head: "toss-up"}, {Head: "your numbers: sure"}, {Head: "toss-up"}}}
	for _, c := range h.Cases {
		for _, o := range c.Orders {
			if o.Doubted == nil {
				continue // one that was looked for
			}
			row := Cells(c.Name, orderName(o.Order))
			for _, a := range []*halt.Answer{o.Answer, o.Doubted} {
				row = append(row, h.whenever(h.sure(a)), h.whenever(a.Latest()))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return []Block{t, Text{Says: numbersAre(h.Numbers)}}
}
