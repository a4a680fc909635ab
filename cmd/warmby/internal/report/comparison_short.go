package report

import (
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// whole tells all milestones under all orders, with the picture of the odds.
func (c Comparison) whole() []Block {
	w := c.AsIs
	t := Table{Caption: "When each order reaches each milestone: usually, in 9 of 10 " + c.site().Many + ", and how often in time", Columns: []Column{{}}}
	for i := range w.Played {
		t.Columns = append(t.Columns, Column{Head: w.heading(i)})
	}
	for m, milestone := range c.Drill.Milestones {
		name := Say("{}", milestone.Name)
		if milestone.By != sim.Never {
			name = Say("{} {}", milestone.Name, target(c.Drill, m))
		}
		row := []Sentence{Briefly(name)}
		for i := range w.Played {
			row = append(row, Briefly(c.briefOdds(&w.Odds[m][i])))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{Picture{Drawing: c.OddsDrawing, Caption: "How often each order has reached it by then", Table: t}}
}

func (c Comparison) briefOdds(o *compare.Odds) Sentence {
	s := Say("{} / {}", By{o.Quantiles[0], c.site()}, By{o.Quantiles[compare.NineOfTen], c.site()})
	if o.OnTime != nil {
		s = Say("{} / {}", s, Share{Share: *o.OnTime})
	}
	return s
}

// apart tells at each milestone that it is about which orders are soonest, how far
// the next is behind them on average, and how near the best the order is that is
// taken for it.
func (c Comparison) apart(w *Bout) (list []Block) {
	if len(w.Played) < 2 {
		return nil
	}
	if w.mostOftenWell() != nil {
		b := compare.BestWell(w.Well)
		if near := c.nearBest(w, b); !near.IsEmpty() {
			list = append(list, Text{Head: c.BestFor(b), Item: true, Says: near})
		}
	}
	for _, m := range c.Primary {
		best := w.best(m)
		says := w.orders(best)
		if len(best) > 1 {
			says = Say("{} are level", says)
		}
		for _, i := range w.Ranking(m) {
			if !slices.Contains(best, i) {
				says = Say("{}; {} {}", says, w.order(i), w.behind(m, best[0], i))
				break
			}
		}
		says = sentenceEnd(says)
		if near := c.nearBest(w, w.BestAt(m)); !near.IsEmpty() {
			says = Say("{} {}", says, near)
		}
		list = append(list, Text{Head: c.Drill.Milestones[m].Name, Item: true, Says: says})
	}
	return list
}

// behind says how far an order is behind the first.
func (w *Bout) behind(m, first, i int) Sentence {
	d := w.Between(m, i, first).Diff
	if !d.Mean.OK() {
		return Say("sooner in {}", Share{Share: d.ASooner})
	}
	return Say("{}", Difference{d.Mean.Negated()})
}

// whatIfsShort says which order to take in each of the what-ifs.
func (c Comparison) whatIfsShort() (list []Block) {
	for _, w := range c.WhatIfs {
		says := c.take(w)
		if len(w.Played) == 1 {
			says = c.wellLine(w, 0)
		}
		if worse := c.worse(w); !worse.IsEmpty() {
			says = Say("{} {}", says, worse)
		}
		list = append(list, Text{Head: w.WhatIf, Item: true, Says: says})
	}
	return list
}

// worse says what a what-if costs at most, at one milestone that it is about,
// with the order that is soonest there as it stands.
func (c Comparison) worse(w *Bout) Sentence {
	var most *stats.Mean
	at := 0
	for _, m := range c.Primary {
		mean := c.Change(w, c.AsIs.Ranking(m)[0], m).Mean
		switch {
		case !mean.OK():
			return Say("{} is not always reached.", capital(c.Drill.Milestones[m].Name))
		case roundTo(millis(mean.Value), sim.Minute) > 0 && (most == nil || mean.Value > most.Value):
			most, at = &mean, m
		}
	}
	if most == nil {
		return nil
	}
	return Say("Costs most at {}: {}.", c.Drill.Milestones[at].Name, Difference{most.Negated()})
}

// Change is what a what-if does to one milestone of one order, run by run: over
// 0 when it comes later than as it stands.
func (c Comparison) Change(w *Bout, order, m int) stats.Difference {
	as := c.AsIs.Played[order]
	return as.Looks.Difference(compare.Pair(w.Played[order].Times[m], as.Times[m]))
}

// waiting lists the tasks that can wait, in the order of the file.
func (c Comparison) waiting() (tasks []string) {
	for _, left := range c.LeftOut {
		for _, l := range left {
			if !slices.Contains(tasks, l.Task) {
				tasks = append(tasks, l.Task)
			}
		}
	}
	return tasks
}

// won returns what leaving out a task wins at a milestone with an order: over 0
// when it comes sooner without; nil where there is nothing to tell.
func (c Comparison) won(task string, order, m int) *stats.Mean {
	for _, l := range c.LeftOut[order] {
		if l.Task == task && l.Wins != nil && l.Wins[m] != nil {
			won := l.Wins[m].Mean.Negated()
			return &won
		}
	}
	return nil
}

// canWaitShort says what leaving out each task that can wait wins most, at the
// milestones that it is about.
func (c Comparison) canWaitShort() (list []Block) {
	for _, task := range c.waiting() {
		best, at, order := (*stats.Mean)(nil), 0, 0
		for i := range c.LeftOut {
			for _, m := range c.Primary {
				won := c.won(task, i, m)
				if won != nil && won.OK() && roundTo(millis(won.Value), sim.Minute) > 0 && (best == nil || won.Value > best.Value) {
					best, at, order = won, m, i
				}
			}
		}
		says := Say("leaving it out wins nothing to speak of.")
		if best != nil {
			says = Say("without it {} {} with {}.", c.Drill.Milestones[at].Name, Difference{*best}, c.AsIs.order(order))
		}
		list = append(list, Text{Head: task, Item: true, Says: says})
	}
	return list
}

// shownShort is how many tasks are shown for a milestone on one screen.
const shownShort = 2

// movesShort says what holds each milestone up with the order that is soonest
// there.
func (c Comparison) movesShort() (list []Block) {
	c.eachMover(shownShort, func(m, order int, _ *compare.Moves, movers []compare.Mover) {
		var parts []Sentence
		for _, v := range movers {
			s := Say("{} in {}", c.Drill.Tasks[v.Task].Name, Share{Share: v.Critical, Of: c.site().Many})
			if v.PerMinute.OK() {
				s = Say("{} (a minute less there wins {})", s, Won{v.PerMinute})
			}
			parts = append(parts, s)
		}
		head := c.Drill.Milestones[m].Name
		if len(c.AsIs.Played) > 1 {
			head += " with " + c.AsIs.order(order)
		}
		list = append(list, Text{Head: head, Item: true, Says: sentenceEnd(Join(parts, "; "))})
	})
	return list
}

// eachMover goes through the milestones that it is about, with the order that is
// soonest there and the tasks that most often hold it up.
func (c Comparison) eachMover(n int, tell func(m, order int, moves *compare.Moves, movers []compare.Mover)) {
	for k, m := range c.Primary {
		order := c.AsIs.Ranking(m)[0]
		moves := c.Moves[order]
		if movers := compare.TopMovers(moves.Milestones[k], n); len(movers) > 0 {
			tell(m, order, moves, movers)
		}
	}
}
