package report

import (
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/stats"
)

// when tells of each milestone the odds of every order, and how every two of
// them stand.
func (c Comparison) when(w *Bout) (list []Block) {
	d := w.Played[0].Drill
	for m, milestone := range d.Milestones {
		head := Say("{}", capital(milestone.Name))
		if milestone.By != sim.Never {
			head = Say("{}, {}", capital(milestone.Name), target(d, m))
		}
		if as := w.Same(m); as >= 0 {
			list = append(list, Text{Says: Say("{}: as {}, to the moment, in every run.", head, d.Milestones[as].Name)})
			continue
		}
		list = append(list, Text{Says: Say("{}:", head)}, c.oddsTable(w, m))
		for i, o := range w.Odds[m] {
			if o.Never.Count > 0 {
				list = append(list, Text{Item: true, Says: Say("{}: never reached in {}.", w.order(i), Share{Share: o.Never})})
			}
		}
		for _, says := range c.skewedAt(w, m) {
			list = append(list, Text{Item: true, Says: sentence(says)})
		}
		if len(w.Played) > 1 {
			list = append(list, c.pairs(w, m))
		}
	}
	return list
}

func (c Comparison) oddsTable(w *Bout, m int) Table {
	d := w.Played[0].Drill
	t := Table{Caption: "When " + d.Milestones[m].Name + " is reached", Columns: []Column{
		{}, {Head: "mean since arrival"}, {Head: "5 of 10 by"}, {Head: "8 of 10 by"}, {Head: "9 of 10 by"}, {Head: "19 of 20 by"}}}
	target := d.Milestones[m].By != sim.Never
	if target {
		t.Columns = append(t.Columns, Column{Head: "in time"})
	}
	for i := range w.Played {
		o := &w.Odds[m][i]
		row := Cells(w.heading(i), "none: not always reached")
		if o.Mean.OK() {
			row[1] = Say("{}", Mean{o.Mean})
		}
		for _, q := range o.Quantiles {
			row = append(row, Say("{}", By{q, SiteOf(d)}))
		}
		if target {
			row = append(row, Say("{}", Share{Share: *o.OnTime}))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// pairs tells how far each order is ahead of each other one, the soonest first.
func (c Comparison) pairs(w *Bout, m int) Table {
	by := "by (exploratory)"
	if !w.Matches[m][0].Exploratory {
		by = "by (all hold together)"
	}
	t := Table{Caption: "How orders stand at " + c.Drill.Milestones[m].Name, Columns: []Column{{}, {Head: by}, {Head: "sooner in"}, {Head: "later in"}, {Head: "9 of 10 by"}}}
	target := c.Drill.Milestones[m].By != sim.Never
	if target {
		t.Columns = append(t.Columns, Column{Head: "in time"})
	}
	ranking := w.Ranking(m)
	for i, a := range ranking {
		for _, b := range ranking[i+1:] {
			p := w.Between(m, a, b)
			if p.Diff.Ahead() == 1 { // ranked by something else
				p = p.Turned()
			}
			gap := apartCells(p.Diff.Mean.Negated(), p.Apart, c.site().Many)
			row := Cells(Say("{} {} {}", w.order(p.A), stand(p.Diff), w.order(p.B)), gap[0],
				Share{Share: p.Diff.ASooner}, Share{Share: p.Diff.BSooner}, gap[1])
			if target {
				row = append(row, gap[2])
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// stand says what is between two orders, of which the first has the sooner mean.
func stand(d stats.Difference) string {
	switch {
	case d.Ahead() == 0:
		return "level with"
	case d.Mean.High > 0:
		return "ahead of?"
	}
	return "ahead of"
}

func apartBy(m stats.Mean) Sentence {
	switch {
	case !m.OK():
		return Say("no mean (not always reached)")
	case m.Value == 0 && m.SD == 0:
		return Say("the same in every run")
	}
	return Say("{}", Difference{m})
}

// coldTable tells how cold the coldest gets with each order.
func (c Comparison) coldTable(w *Bout) []Block {
	t := Table{Caption: "How cold the coldest person gets with each order", Columns: []Column{
		{}, {Head: "over the limit"}, {Head: "5 of 10, at most"}, {Head: "9 of 10, at most"}, {Head: "coldest most often"}, {Head: "all in time"}, {Head: "all well"}}}
	runs := 0
	for i, k := range w.Cold {
		if k == nil {
			continue
		}
		runs = max(runs, len(k.Peaks))
		who := k.MostOften()
		row := Cells(w.heading(i), Share{Share: k.OverShare()}, peak(k, 0.5), peak(k, 0.9),
			Say("{}, {} of {}", w.Played[i].Drill.People[who].Name, k.Coldest[who], len(k.Peaks)), "", Share{Share: *w.Well[i].All})
		if targets := w.Well[i].Targets; targets != nil {
			row[5] = Say("{}", Share{Share: *targets})
		}
		t.Rows = append(t.Rows, row)
	}
	if runs == 0 {
		return c.wellTable(w)
	}
	return []Block{t, Text{Says: Say("The most heat that anybody has lost at any moment of a run, reached at most in 5 and in 9 of 10 {}, and in how many somebody passes the limit of {}. "+
		"The account is kept in the first {}. Coldest most often: who in most runs loses more than anybody else. All well: every target met, and nobody over the limit.",
		c.site().Many, heatLost(cold.HeatLimit, 0), Count{runs, "run"})}}
}

// wellTable tells how often all targets are met where there is no account of
// cold.
func (c Comparison) wellTable(w *Bout) []Block {
	if w.Well[0].Targets == nil {
		return nil
	}
	t := Table{Caption: "How often all targets are met", Columns: []Column{{}, {Head: "all in time"}}}
	for i := range w.Well {
		t.Rows = append(t.Rows, Cells(w.heading(i), Share{Share: *w.Well[i].Targets}))
	}
	return []Block{t, Text{Says: Say("No account of cold: the file lacks weather or clothing.")}}
}

func peak(k *compare.Cold, p float64) Quantity {
	q := k.Quantile(p)
	return Quantity{Value: q.Value, Low: q.Low, High: q.High, Unit: "Wh/m2"}
}

// changes tells what a what-if costs: milestones by orders.
func (c Comparison) changes(w *Bout) []Block {
	return c.grid(func(order, m int) *stats.Mean {
		mean := c.Change(w, order, m).Mean.Negated()
		return &mean
	})
}

// grid has a difference for each milestone and order; rows in which nothing
// changes are left out. Nil is nothing to say.
func (c Comparison) grid(mean func(order, m int) *stats.Mean) []Block {
	t := Table{Caption: "What changes, by milestone and order", Columns: []Column{{}}}
	for i := range c.AsIs.Played {
		t.Columns = append(t.Columns, Column{Head: c.AsIs.heading(i)})
	}
	for m, milestone := range c.Drill.Milestones {
		row, changes := Cells(milestone.Name), false
		for i := range c.AsIs.Played {
			v := mean(i, m)
			switch {
			case v == nil:
				row = append(row, nil)
			case !v.OK():
				row, changes = append(row, Say("no mean (not always reached)")), true
			case v.Value == 0 && v.SD == 0:
				row = append(row, Say("no change"))
			default:
				row, changes = append(row, Say("{}", Difference{*v})), true
			}
		}
		if changes {
			t.Rows = append(t.Rows, row)
		}
	}
	if t.Rows == nil {
		return []Block{Text{Says: Say("No milestone changes in any run.")}}
	}
	return []Block{t}
}

// canWait tells for each task that can wait what leaving it out wins.
func (c Comparison) canWait() (list []Block) {
	for _, task := range c.waiting() {
		list = append(list, Text{Says: Say("{}:", capital(task))})
		list = append(list, c.grid(func(order, m int) *stats.Mean { return c.won(task, order, m) })...)
	}
	if list == nil {
		return nil
	}
	runs := 0
	for _, left := range c.LeftOut {
		for _, l := range left {
			runs = max(runs, l.Runs)
		}
	}
	return append(list, Text{Says: Say("Each played without the task in {} of the same luck, as if it took no time and nobody; what comes after it then waits for what it came after. "+
		"Milestones that do not move are left out. What the task itself is good for is yours to weigh.", Count{runs, "run"})})
}

// shownMovers is how many tasks are shown for a milestone in full.
const shownMovers = 5

// moves tells, for each milestone that it is about with the order that is
// soonest there, the tasks that decide it.
func (c Comparison) moves() (list []Block) {
	var last *compare.Moves
	c.eachMover(shownMovers, func(m, order int, moves *compare.Moves, movers []compare.Mover) {
		last = moves
		head := Say("{}:", capital(c.Drill.Milestones[m].Name))
		if c.AsIs.Played[order].Drill.Order != "" {
			head = Say("{}, with {}:", capital(c.Drill.Milestones[m].Name), c.AsIs.order(order))
		}
		t := Table{Caption: "What decides " + c.Drill.Milestones[m].Name, Columns: []Column{{}, {Head: "holds it up in"}, {Head: "a minute less wins"}, {Head: "rank correlation"}}}
		for _, v := range movers {
			row := Cells(c.Drill.Tasks[v.Task].Name, Share{Share: v.Critical}, Won{v.PerMinute}, Rank{v.Rank})
			if !v.PerMinute.OK() {
				row[2] = Say("{}", v.PerMinute.Why)
			}
			t.Rows = append(t.Rows, row)
		}
		list = append(list, Text{Says: head}, t)
		if luck := c.Luck[order]; luck != nil {
			list = append(list, c.luckOf(m, &luck[slices.Index(c.Primary, m)])...)
		}
	})
	if last == nil {
		return nil
	}
	return append(list, Text{Says: Say("Holds it up: in so many of {} the task is on the critical sequence. A minute less: played again in {} of the same luck with the task a minute shorter "+
		"(a person-minute, where it is work), in minutes; over 1 when much hangs on it, under 0 when being done sooner makes others choose worse. Rank correlation: of the task's length, mishaps apart, with the milestone, over {}; "+
		"a good or bad day moves all work together. The other orders stand in --json.",
		Count{last.Told, "run"}, Count{last.Again, "run"}, Count{last.Ranked, "run"})})
}

// luckOf tells how what is drawn shares in the variance of a milestone: all
// that holds a hundredth of it.
func (c Comparison) luckOf(m int, luck *compare.Luck) []Block {
	if len(luck.Chances) == 0 {
		return nil
	}
	if !luck.Explained.OK() {
		return []Block{Text{Says: Say("Luck: no shares of its variance ({}).", luck.Explained.Why)}}
	}
	t := Table{Caption: "How luck shares in the variance of " + c.Drill.Milestones[m].Name, Columns: []Column{{Head: "luck"}, {Head: "alone"}, {Head: "in all"}}}
	for _, one := range luck.Chances {
		if max(one.First.Value, one.Total.Value) < 0.01 {
			break // they are in falling order
		}
		row := Cells(chanceWords(one), OfVariance{one.First}, OfVariance{one.Total})
		if !one.Total.OK() {
			row[2] = Say("{}", one.Total.Why)
		}
		t.Rows = append(t.Rows, row)
	}
	more := len(luck.Chances) - len(t.Rows)
	for _, g := range luck.Together {
		if g.Total.Value < 0.01 {
			break // likewise
		}
		t.Rows = append(t.Rows, Cells(Count{len(g.Chances), "other"}, "", OfVariance{g.Total}))
		more -= len(g.Chances)
	}
	says := Say("Each alone, they hold {} of the variance together", OfVariance{luck.Explained})
	if more > 0 {
		says = Say("{}; {} under 1 % are not in the table", says, Count{more, "other"})
	}
	return []Block{t, Text{Says: Say("{}. The rest is what they do to each other. Alone: the share of the variance that knowing this would take away, from {}; in all: what would be left if only this were not known, drawn anew in {} or more (help odds).",
		says, Count{luck.Runs, "run"}, Count{luck.Redrawn, "run"})}}
}

// chanceWords says what is drawn.
func chanceWords(c compare.Chance) string {
	switch c.Purpose {
	case draw.ForDay:
		return "a good or bad day"
	case draw.ForOwnDay:
		return "a good or bad day of " + c.Name
	case draw.ForWeather:
		return "the weather"
	case draw.ForMishap:
		return "mishaps: " + c.Name
	case draw.ForArrives, draw.ForLoadArrives:
		return "when it comes: " + c.Name
	}
	return "length: " + c.Name
}

// method says how to read it.
func (c Comparison) method() []Block {
	list := []Block{Text{Says: Say("Run 0 to {} of seed {}: in each, all orders meet the same lengths, mishaps, arrivals and weather. "+
		"\"9 of 10\" is when a milestone is reached in 9 of 10 runs; a run that never gets there counts as infinitely late, and then there is no mean. "+
		"Intervals, in brackets, hold with {}: Student's t for means and differences, order statistics for \"of 10\", Wilson's or the exact one for shares; differences of the last two by squaring and adding what is not in common.",
		c.Runs-1, fmt.Sprint(c.Seed), Percent(stats.Level))}}
	differences, names := 0, []string(nil)
	for _, m := range c.Primary {
		differences += len(c.AsIs.Matches[m])
		names = append(names, c.Drill.Milestones[m].Name)
	}
	if differences > 1 {
		families := "one family"
		if len(c.WhatIfs) > 0 {
			families = "one family, and so are those under each what-if"
		}
		list = append(list, Text{Says: Say("The {} differences at {} are {}: with {} all intervals of a family hold at once, and \"ahead\" is said when Holm's procedure finds it for the family "+
			"(with a question mark where the interval all the same holds 0). How often all is well, and how often each milestone is in time, are families of their own; by them the first lines say which order to take. Everything else is exploratory: of twenty such intervals one is expected to miss. "+
			"Level is what cannot be told apart.", differences, Named(names), families, Percent(stats.Level))})
	}
	return append(list, Text{Says: Say("All of it is as true as the lengths in the file. Stop-watch your own team and put them in.")})
}
