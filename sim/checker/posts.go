package checker

import (
	"fmt"
	"slices"
	"sort"
)

// posts checks each place of each lookout by itself: the people are those who
// may stand there, one at a time, and each stands until the relief has
// arrived or the drill ends. Who is called when is for the allocation.
func (c *check) posts() {
	for l := range c.d.Lookouts {
		for place := 0; place < c.d.Lookouts[l].Places; place++ {
			c.post(l, place)
		}
	}
}

func (c *check) post(l, place int) {
	look := &c.d.Lookouts[l]
	what := fmt.Sprintf("%s, place %d", c.lookout(l), place)
	var turns []spell
	for _, s := range c.at[l] {
		if s.Place == place {
			turns = append(turns, s)
		}
	}
	sort.SliceStable(turns, func(i, j int) bool { return turns[i].Called < turns[j].Called })
	for i, s := range turns {
		who := c.d.People[s.Person].Name
		if c.d.People[s.Person].Casualty {
			c.broken(s.Called, "who", what, who+" is called", "nobody who is a casualty")
		}
		if !c.mayStand(l, s.Person) {
			c.broken(s.Called, "lookout", what, who+" is called", "only those who may stand there")
		}
		if from := c.begins(l); s.Called < from {
			c.broken(s.Called, "lookout", what, who+" is called", "nobody before "+clock(from))
		}
		if stop := c.stops(l); s.Called > stop || look.Until > 0 && s.Called == stop {
			c.broken(s.Called, "lookout", what, who+" is called", "nobody once it has ended at "+clock(stop))
		}
		// a place whose relief is on the way is owed no second one
		if i > 0 && s.Called < turns[i-1].Arrives {
			c.broken(s.Called, "lookout", what, who+" is called while "+c.d.People[turns[i-1].Person].Name+" is on the way", "no second relief")
		}
		until, why := c.tl.End, "the drill ends"
		if i+1 < len(turns) && turns[i+1].Arrives <= c.tl.End {
			until, why = turns[i+1].Arrives, "the relief has arrived"
		}
		if stop := c.stops(l); stop < until {
			until, why = stop, "the lookout ends"
		}
		until = max(until, s.Arrives) // who is on the way walks on
		if slices.ContainsFunc(look.UntilTasks, func(k int) bool { return c.tl.Tasks[k].Called == s.Left }) {
			continue // called to a task that ends it, or relieved by one who is
		}
		if s.Arrives < c.tl.End && s.Left != until {
			c.broken(s.Left, "lookout", what, who+" stands until "+clock(s.Left), "until "+why+" at "+clock(until))
		}
	}
}

// mayStand reports whether a person may be called to a lookout. (Everyone,
// when a scenario names nobody, is for the reader of the scenario to list.) A
// casualty is at no lookout.
func (c *check) mayStand(l, p int) bool {
	for _, q := range c.d.Lookouts[l].Who {
		if p == q && !c.d.People[p].Casualty {
			return true
		}
	}
	return false
}
