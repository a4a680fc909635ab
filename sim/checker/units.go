package checker

// units lists the stoves of its kind one of which a task that burns one takes now.
// A warm-up takes over the one that keeps its shelter warm. Of a kind that holds
// pots a warm-up takes the lowest-numbered that warms nothing, a melt the
// lowest-numbered with no pot on it; of any other kind one that nobody holds.
func (m *moment) units(k int) []int {
	if o := m.keeper(k); o >= 0 {
		return []int{m.c.tl.Tasks[o].Unit}
	}
	var list []int
	for unit := range m.c.stovesThere(m.c.burns(k), func(k int) bool { return m.ended[k] }) {
		if m.unitFree(k, unit) {
			list = append(list, unit)
		}
	}
	if len(list) > 1 && m.c.d.Stoves[m.c.burns(k)].HoldsPots {
		list = list[:1]
	}
	return list
}

// unitFree reports whether a task may have a stove: nobody holds it, or it holds
// pots and only a task of the other kind is on it.
func (m *moment) unitFree(k, unit int) bool {
	for o := range m.called {
		if o != k && m.holds(o) && m.c.burns(o) == m.c.burns(k) && m.c.tl.Tasks[o].Unit == unit && !m.c.share(o, k) {
			return false
		}
	}
	return true
}

// keeper returns the warm-up whose stove, of the same kind, keeps the shelter of
// another warm; -1 if none does.
func (m *moment) keeper(k int) int {
	for o := range m.called {
		if m.c.sameShelter(o, k) && m.c.burns(o) == m.c.burns(k) && m.ended[o] && m.holds(o) {
			return o
		}
	}
	return -1
}

// holds reports whether a task that burns a stove holds it now: a melt until its
// end, a warm-up until the stove is out or taken over.
func (m *moment) holds(o int) bool {
	if m.c.burns(o) < 0 || !m.called[o] {
		return false
	}
	if m.c.d.Tasks[o].Warm == nil || !m.ended[o] {
		return !m.ended[o]
	}
	for n := range m.called {
		t := m.c.tl.Tasks[n]
		if m.c.sameShelter(n, o) && m.called[n] && m.c.burns(n) == m.c.burns(o) && t.Unit == m.c.tl.Tasks[o].Unit && t.Called >= m.c.tl.Tasks[o].End {
			return false
		}
	}
	return m.c.putOutBy(o, func(k int) bool { return m.ended[k] }) > m.at
}
