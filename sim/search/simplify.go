package search

import (
	"slices"
)

// simplify simplifies some candidates, each with its part of what may still be
// played.
func (g *game) simplify(players []*player, w objective, list []*candidate) {
	allowed := g.left() / int64(max(1, len(list)))
	g.each(players, len(list), func(p *player, i int) { list[i] = p.simplify(w, list[i], allowed) })
}

// simplify takes out of an order what it can do without: crews that are no
// longer narrowed, rules that no longer differ, unloading that is no longer
// named, when every milestone comes at the same moments all the same, with
// usual values and in every run that the candidate has met. A shorter order is
// easier to shout across a camp. It plays no more drills than it is allowed to.
func (p *player) simplify(w objective, c *candidate, allowed int64) *candidate {
	if c.plan == nil || c.known != "" {
		return c
	}
	attempt := func(change func(pl *plan) bool) {
		pl := c.plan.clone()
		cost := p.cost() + int64(c.runs())*p.cases()
		if !change(pl) || p.ctx.Err() != nil || allowed < cost {
			return
		}
		allowed -= cost
		n := p.try(w, pl)
		if n == nil || !slices.Equal(n.milestones, c.milestones) {
			return
		}
		if c.times != nil {
			if p.run(n, len(c.times[0])); !p.same(n, c) {
				return
			}
		}
		if p.keepWarm(n); n.chill <= c.chill {
			c = n
		}
	}
	for i := range c.plan.crews {
		attempt(func(pl *plan) bool {
			was := pl.crews[i]
			pl.crews[i] = p.d.Tasks[i].Crew
			return was != pl.crews[i]
		})
	}
	for i := range p.d.Items {
		attempt(func(pl *plan) bool {
			was := pl.has[i]
			pl.has[i] = 0
			return was != 0
		})
	}
	for k := range c.plan.groups {
		attempt(func(pl *plan) bool {
			was := pl.groups[k].inTurn
			pl.groups[k].inTurn = false
			return was
		})
	}
	return c
}
