package checker

import (
	"slices"

	"warmby/sim"
)

// beginsBy returns when a lookout begins: at a time, or when the last of the tasks
// has ended with which it begins; Never when one has not, with what has ended as
// told.
func (c *check) beginsBy(l int, ended func(int) bool) sim.Time {
	look := &c.d.Lookouts[l]
	if len(look.FromTasks) == 0 {
		return look.From
	}
	at := sim.Time(0)
	for _, k := range look.FromTasks {
		if !ended(k) {
			return sim.Never
		}
		at = max(at, c.tl.Tasks[k].End)
	}
	return at
}

// begins is beginsBy for all that the timeline tells.
func (c *check) begins(l int) sim.Time {
	return c.beginsBy(l, func(k int) bool { return c.tl.Tasks[k].End != sim.Never })
}

// stops returns when a lookout ends: at a time, or when work starts on the first of
// the tasks that end it; Never when it stands until the drill ends.
func (c *check) stops(l int) sim.Time {
	look := &c.d.Lookouts[l]
	if look.Until > 0 {
		return look.Until
	}
	at := sim.Never
	for _, k := range look.UntilTasks {
		at = min(at, c.tl.Tasks[k].Start)
	}
	return at
}

// over reports whether a lookout has ended.
func (m *moment) over(l int) bool {
	look := &m.c.d.Lookouts[l]
	return look.Until > 0 && m.at >= look.Until ||
		slices.ContainsFunc(look.UntilTasks, func(k int) bool { return m.begun[k] })
}

// lent lists those who stand at a lookout that a task ends: they count as free for
// it, but for who is hurt by then.
func (m *moment) lent(k int) []int {
	var people []int
	for l := range m.c.d.Lookouts {
		if !slices.Contains(m.c.d.Lookouts[l].UntilTasks, k) || m.over(l) {
			continue
		}
		for _, place := range m.posts[l] {
			if p := place.there; p >= 0 && m.is[p] == post && !m.hurt(p, m.duties) {
				people = append(people, p)
			}
		}
	}
	return people
}

// callFrom takes a person from a place that is then filled no more; a relief who is
// on the way to it walks on.
func (m *moment) callFrom(p int) {
	for l := range m.posts {
		for i := range m.posts[l] {
			place := &m.posts[l][i]
			if place.there != p {
				continue
			}
			if place.coming >= 0 {
				m.is[place.coming] = late
			}
			*place = standing{-1, -1}
			m.duties[l].slots[i].lost = true
			m.duties[l].slots[i].owed = false
		}
	}
}

// endWatches lets the lookouts end that a task ends on which work starts: who
// stands there is free, who is on the way walks on.
func (m *moment) endWatches(k int) {
	for l := range m.posts {
		if !slices.Contains(m.c.d.Lookouts[l].UntilTasks, k) {
			continue
		}
		for i, place := range m.posts[l] {
			if p := place.there; p >= 0 && m.is[p] == post {
				m.is[p], m.spot[p] = free, m.c.d.Lookouts[l].Spot
			}
			if p := place.coming; p >= 0 && m.is[p] == post {
				m.is[p] = late
			}
			m.posts[l][i] = standing{-1, -1}
		}
	}
}

// mayWalkOn reports whether somebody who walks to a place need not take it: the
// lookout has ended, who stood there has been called to a task that ends it, or
// is called to one on arrival.
func (c *check) mayWalkOn(s, next sim.Stretch) bool {
	until := c.d.Lookouts[s.Lookout].UntilTasks
	if c.stops(s.Lookout) <= s.To || next.Task >= 0 && slices.Contains(until, next.Task) {
		return true
	}
	for _, o := range c.at[s.Lookout] {
		if o.Place == s.Place && o.Called < s.From && o.Left <= s.To && slices.Contains(until, o.Next) {
			return true
		}
	}
	return false
}

// gone reports whether a relief who needed no walk has left the place within the
// instant: it has ended, or he has been called to what ends it. That has no length
// and is not told.
func (m *moment) gone(e decision) bool {
	return e.here && m.posts[e.lookout][e.slot].there != e.people[0]
}

// watchedUnseen reports whether a person may have stood at a spot for no length of
// time: at a lookout that a task called at that moment ends.
func (c *check) watchedUnseen(p, spot int, at sim.Time) bool {
	for l, look := range c.d.Lookouts {
		if look.Spot == spot && c.mayStand(l, p) && slices.ContainsFunc(look.UntilTasks, func(k int) bool { return c.tl.Tasks[k].Called == at }) {
			return true
		}
	}
	return false
}
