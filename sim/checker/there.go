package checker

import "warmby/sim"

// A lookout with "unless somebody works there" needs nobody while people are at work
// there. The functions of this file follow the manual's sentences about it.

// isThere reports whether a task is work at the spot of such a lookout or at another
// spot in the same shelter: one with a crew.
func (c *check) isThere(l, k int) bool {
	look, task := &c.d.Lookouts[l], &c.d.Tasks[k]
	if _, high := bounds(task); !look.UnlessWorked || high == 0 {
		return false
	}
	in := c.d.Spots[look.Spot].In
	return task.Spot == look.Spot || in >= 0 && c.d.Spots[task.Spot].In == in
}

// needless reports whether such a lookout needs nobody: while a task there is under
// way, and from the call to it of somebody who stood there.
func (m *moment) needless(l int) bool {
	return m.worked(l, func(k int) bool { return m.begun[k] })
}

// needlessOnArrival is needless for those who arrive at the instant: people arrive
// before tasks start.
func (m *moment) needlessOnArrival(l int) bool {
	return m.worked(l, func(k int) bool { return m.begun[k] && m.c.tl.Tasks[k].Start < m.at })
}

func (m *moment) worked(l int, begun func(int) bool) bool {
	for k := range m.called {
		if m.c.isThere(l, k) && m.called[k] && !m.ended[k] && (begun(k) || m.lookouts[l].called[k]) {
			return true
		}
	}
	return false
}

// freesNow reports whether who stood there is free before the allocation: the lookout
// needs nobody, or work there has begun at the instant, if only for no time.
func (m *moment) freesNow(l int) bool {
	for k := range m.called {
		if m.c.isThere(l, k) && m.called[k] && m.c.tl.Tasks[k].Start == m.at {
			return true
		}
	}
	return m.needless(l)
}

// workedUntil reports whether work there has ended at the instant.
func (m *moment) workedUntil(l int) bool {
	for k := range m.called {
		if m.c.isThere(l, k) && m.called[k] && m.c.tl.Tasks[k].End == m.at {
			return true
		}
	}
	return false
}

// dueThere marks the places that are owed somebody: all to which nobody is on the
// way when the lookout begins and when the last work there has ended, and each by
// itself when its relief is due.
func (m *moment) dueThere(l int, d *lookout, from sim.Time) {
	if from > m.at || m.over(l) || m.needless(l) {
		return
	}
	all := m.freed[l] || from == m.at && !m.marked[l]
	m.freed[l], m.marked[l] = false, true
	for i := range d.places {
		s := &d.places[i]
		coming := m.standing[l][i].coming >= 0
		if s.lost || s.next != m.at && (coming || !all) {
			continue
		}
		if s.next = m.c.reliefAfter(l, m.at); !s.owed && !coming {
			s.owed, s.tried = true, false
		}
	}
}

// reliefAfter returns when the relief of a place is due that somebody took over at a
// moment; or again, where it was due then and nobody has taken over since.
func (c *check) reliefAfter(l int, at sim.Time) sim.Time {
	if relief := c.d.Lookouts[l].Relief; relief > 0 {
		return at + relief
	}
	return sim.Never
}

// nearest returns the one with the shortest walk of those who may, of equals the
// first of the roster; -1 if there is none.
func (m *moment) nearest(l int, may func(p int) bool) int {
	best, least := -1, sim.Never
	for p := range m.is {
		if !m.c.mayStand(l, p) || !may(p) {
			continue
		}
		if walk := m.c.walk(m.whereIs(p), m.c.d.Lookouts[l].Spot); walk < least {
			best, least = p, walk
		}
	}
	return best
}

// whereIs returns the spot where somebody is who is free or at work.
func (m *moment) whereIs(p int) int {
	if m.is[p] == bound {
		return m.c.d.Tasks[m.on[p]].Spot
	}
	return m.spot[p]
}

// letGo frees those who stand at a lookout that needs nobody from now on. Who is on
// the way walks on; no place is owed anybody until work there has ended.
func (m *moment) letGo(l int) {
	for i := range m.standing[l] {
		if p := m.standing[l][i].there; p >= 0 {
			m.is[p], m.spot[p] = free, m.c.d.Lookouts[l].Spot
			m.standing[l][i].there = -1
		}
		if s := &m.lookouts[l].places[i]; m.standing[l][i].coming < 0 {
			s.owed, s.next = false, sim.Never
		}
	}
	m.freed[l] = true
}

// beginThere lets the lookouts go that need nobody once work on a task has begun.
func (m *moment) beginThere(k int) {
	for l := range m.standing {
		if m.c.isThere(l, k) {
			m.letGo(l)
		}
	}
}
