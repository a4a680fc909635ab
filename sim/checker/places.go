package checker

import (
	"cmp"
	"fmt"
	"slices"

	"warmby/sim"
)

// places checks each place of each lookout by itself: the people are those who may
// stand there, called while the lookout goes on, one at a time. Who is called when,
// and who stands there until when, is for the allocation.
func (c *check) places() {
	for l := range c.d.Lookouts {
		for place := 0; place < c.d.Lookouts[l].Places; place++ {
			c.onePlace(l, place)
		}
	}
}

func (c *check) onePlace(l, place int) {
	look := &c.d.Lookouts[l]
	what := c.place(l, place)
	var turns []spell
	for _, s := range c.at[l] {
		if s.Place == place {
			turns = append(turns, s)
		}
	}
	slices.SortStableFunc(turns, func(a, b spell) int { return cmp.Compare(a.Called, b.Called) })
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
	}
}

func (c *check) place(l, place int) string { return fmt.Sprintf("%s, place %d", c.lookout(l), place) }

// compareStanding checks who stands where from the instant on: whoever the
// allocation leaves there, and nobody else. A relief takes the place on arrival, and
// who stood there is free then; so is who stands at a lookout that ends, or that
// needs nobody from then on.
func (m *moment) compareStanding() {
	c := m.c
	for l := range m.standing {
		for place, is := range m.standing[l] {
			want, got := []int{}, []int{}
			if is.there >= 0 {
				want = append(want, is.there)
			}
			for _, s := range c.at[l] {
				if s.Place == place && s.Arrives <= m.at && m.at < s.Left {
					got = append(got, s.Person)
				}
			}
			if !slices.Equal(got, want) {
				c.broken(m.at, "lookout", c.place(l, place), c.names(got)+" stands there from now on", c.names(want))
			}
		}
	}
}

// compareFree checks where those are who are free from the instant on: where their
// last task or duty was, also one that had no length and is not told.
func (m *moment) compareFree() {
	c := m.c
	for p, list := range c.tl.People {
		if m.is[p] != free {
			continue
		}
		for _, s := range list {
			if s.What == sim.Free && s.From <= m.at && m.at < s.To && s.Spot != m.spot[p] {
				c.broken(m.at, "where", c.person(p), "is at "+c.d.Spots[s.Spot].Name, c.d.Spots[m.spot[p]].Name)
			}
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
