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

// lent lists those who stand at a lookout that a task ends, or at one that needs
// nobody while people are at it: they count as free for it, but for who is hurt by
// then.
func (m *moment) lent(k int) []int {
	var people []int
	for l := range m.c.d.Lookouts {
		if !slices.Contains(m.c.d.Lookouts[l].UntilTasks, k) && !m.c.isThere(l, k) || m.over(l) {
			continue
		}
		for _, now := range m.standing[l] {
			if p := now.there; p >= 0 && m.is[p] == onLookout && !m.hurt(p, m.lookouts) {
				people = append(people, p)
			}
		}
	}
	return people
}

// callFrom takes a person from a place for a task. One that the task ends is filled
// no more; a relief who is on the way to it walks on. One at which the task is needs
// nobody until it has ended.
func (m *moment) callFrom(p, k int) {
	for l := range m.standing {
		for i := range m.standing[l] {
			now := &m.standing[l][i]
			if now.there != p {
				continue
			}
			if m.c.isThere(l, k) {
				m.lookouts[l].called[k] = true
				m.letGo(l)
			}
			if !slices.Contains(m.c.d.Lookouts[l].UntilTasks, k) {
				continue
			}
			if now.coming >= 0 {
				m.is[now.coming] = late
			}
			*now = standing{-1, -1}
			m.lookouts[l].places[i].lost = true
			m.lookouts[l].places[i].owed = false
		}
	}
}

// endLookouts lets the lookouts end that a task ends on which work starts: who
// stands there is free, who is on the way walks on.
func (m *moment) endLookouts(k int) {
	for l := range m.standing {
		if !slices.Contains(m.c.d.Lookouts[l].UntilTasks, k) {
			continue
		}
		for i, now := range m.standing[l] {
			if p := now.there; p >= 0 && m.is[p] == onLookout {
				m.is[p], m.spot[p] = free, m.c.d.Lookouts[l].Spot
			}
			if p := now.coming; p >= 0 && m.is[p] == onLookout {
				m.is[p] = late
			}
			m.standing[l][i] = standing{-1, -1}
		}
	}
}

// untold reports whether the timeline does not tell a relief who needed no walk: he
// has left the place within the instant, relieved or called away or let go, and that
// has no length; or he stood there before and was let go in between.
func (m *moment) untold(e decision) bool {
	if !e.here {
		return false
	}
	p := e.people[0]
	return m.standing[e.lookout][e.place].there != p ||
		slices.ContainsFunc(m.c.at[e.lookout], func(s spell) bool {
			return s.Person == p && s.Place == e.place && s.Called < m.at && m.at < s.Left
		})
}

// stoodUnseen reports whether a person who is at a spot may have stood at a lookout
// for no length of time, which is not told: one that a task ends that is called at
// that moment, or that needs nobody from then on.
func (c *check) stoodUnseen(p, spot int, at sim.Time, may func(l *sim.Lookout) bool) bool {
	for l := range c.d.Lookouts {
		look := &c.d.Lookouts[l]
		if !may(look) || c.walk(spot, look.Spot) > 0 || !c.mayStand(l, p) {
			continue
		}
		for k, t := range c.tl.Tasks {
			if t.Called == at && (c.isThere(l, k) || slices.Contains(look.UntilTasks, k)) {
				return true
			}
		}
	}
	return false
}

// pulledTo reports whether somebody goes to a lookout from a stretch of time on a
// task, be it that he stands there for no time.
func (c *check) pulledTo(p int, s, next sim.Stretch) bool {
	return next.Lookout >= 0 || s.What == sim.Working &&
		c.stoodUnseen(p, s.Spot, s.To, func(l *sim.Lookout) bool { return l.IfNobody == sim.Pull })
}
