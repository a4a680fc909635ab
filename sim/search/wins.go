package search

import (
	"slices"

	"warmby/sim"
)

// Kind says what a change to an order is about.
type Kind int

const (
	Moves   Kind = iota // a task stands elsewhere
	Crews               // a task has another crew
	Splits              // people and tasks are in other groups
	InTurns             // groups wait, or no longer wait, for a task that may not start
)

// Win is one change to the best of the scenario's own orders that wins much. The
// list of them is cumulative: each is made on top of those before it, and all on
// top of the order named in the result. So a team may take the first two and leave
// the rest.
type Win struct {
	Kind   Kind
	Task   int      // for Moves and Crews
	Anchor int      // for Moves: the task next to which it now stands; -1 for none
	After  bool     // for Moves: after the anchor, else before it
	Crew   sim.Crew // for Crews
	Order  sim.Order
	// Gain is what it wins on top of those before it, and Total what all up to it
	// win, in the first aim.
	Gain, Total Gain
}

// win is a change in the making.
type win struct {
	Win
	apply func(p *plan)
	candidate
}

const (
	// mostWins is how many changes are told at most.
	mostWins = 5
	// winRuns is on how many runs they are chosen.
	winRuns = 128
)

// findWins looks for the few changes that bring the best of the scenario's own
// orders nearest to one that was found: the one that wins most, then the one
// that wins most on top of it, and so on.
func (x *exploration) findWins(from, to *candidate, budget int64) (wins []win) {
	if from.plan == nil || to.plan == nil || to.own {
		return nil
	}
	edits, at := x.edits(from.plan, to.plan), from
	end := min(x.limit, x.played.Load()+budget)
	for len(wins) < mostWins && len(edits) > 0 && x.ctx.Err() == nil {
		best, found := x.bestEdit(edits, at, end)
		if best < 0 {
			break
		}
		w := edits[best]
		w.candidate = *found
		wins, at = append(wins, w), found
		edits = slices.Delete(edits, best, best+1)
	}
	return wins
}

// bestEdit returns the change that wins most on top of an order; -1 when none
// wins more than a step back may cost, or there is no budget to tell.
func (x *exploration) bestEdit(edits []win, at *candidate, end int64) (best int, found *candidate) {
	runs := min(winRuns, x.archive.runs)
	if len(x.lucks) == 0 {
		runs = 0
	}
	if x.played.Load()+int64((len(edits)+1)*(1+runs))*x.cases() > end {
		return -1, nil
	}
	tried := make([]*candidate, len(edits))
	x.each(x.players, len(edits)+1, func(p *player, k int) {
		if k == len(edits) {
			p.run(at, runs)
			return
		}
		pl := at.plan.clone()
		edits[k].apply(pl)
		if tried[k] = p.try(x.goals[0], pl); tried[k] != nil {
			p.run(tried[k], runs)
		}
	})
	if best = -1; x.ctx.Err() != nil {
		return best, nil
	}
	total := func(c *candidate) float64 {
		if runs == 0 {
			return x.weigh(x.goals[0], c.usual(), 1, 0).value
		}
		return x.weigh(x.goals[0], &c.evenings, runs, 0).value
	}
	least := total(at) - 2*x.step(x.goals[0])
	for k, c := range tried {
		if c != nil && total(c) < least {
			best, found, least = k, c, total(c)
		}
	}
	return best, found
}

// edits lists the changes that make one plan of another, more or less.
func (x *exploration) edits(from, to *plan) (list []win) {
	if len(from.groups) != len(to.groups) || !slices.Equal(from.of, to.of) || !slices.Equal(from.has, to.has) {
		list = append(list, win{Win: Win{Kind: Splits}, apply: func(p *plan) {
			p.of, p.has, p.groups = slices.Clone(to.of), slices.Clone(to.has), slices.Clone(to.groups)
		}})
	} else if !slices.Equal(from.groups, to.groups) {
		list = append(list, win{Win: Win{Kind: InTurns}, apply: func(p *plan) { p.groups = slices.Clone(to.groups) }})
	}
	for i := range from.crews {
		if from.crews[i] != to.crews[i] {
			list = append(list, win{Win: Win{Kind: Crews, Task: i, Crew: to.crews[i]}, apply: func(p *plan) { p.crews[i] = to.crews[i] }})
		}
	}
	return append(list, x.moved(from, to)...)
}

// moved lists the tasks that stand elsewhere in one plan than in another.
func (x *exploration) moved(from, to *plan) (list []win) {
	stay, was := unmoved(to.list, from.list), places(from.list)
	for k, i := range to.list {
		if slices.Contains(stay, i) || x.d.Tasks[i].Unloads() && to.has[i] == 0 {
			continue
		}
		next, last := -1, -1
		for _, j := range to.list[k+1:] {
			if next < 0 && slices.Contains(stay, j) {
				next = j
			}
		}
		for _, j := range to.list[:k] {
			if slices.Contains(stay, j) {
				last = j
			}
		}
		w := win{Win: Win{Kind: Moves, Task: i, Anchor: next}}
		if next < 0 || last >= 0 && was[last] > was[i] {
			w.Anchor, w.After = last, true
		}
		w.apply = func(p *plan) { p.move(i, w.Anchor, w.After) }
		list = append(list, w)
	}
	return list
}

// move puts a task next to another, or first for an anchor of -1.
func (p *plan) move(task, anchor int, after bool) {
	at := slices.Index(p.list, task)
	p.list = slices.Delete(p.list, at, at+1)
	to := 0
	if anchor >= 0 {
		if to = slices.Index(p.list, anchor); after {
			to++
		}
	}
	p.list = slices.Insert(p.list, to, task)
}
