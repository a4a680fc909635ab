package checker

import (
	"cmp"
	"maps"
	"slices"

	"warmby/sim"
)

// lookout is what the checker has to remember of a lookout from one instant to
// the next.
type lookout struct {
	last   int // who was called there last; -1 for nobody
	calls  int
	places []place
	called map[int]bool // tasks to which somebody was called who stood there, see needless
}

// place is what it has to remember of one place of a lookout.
type place struct {
	owed  bool
	lost  bool // who stood there has been called to a task that ends the lookout
	tried bool // nobody could be pulled: waits for somebody to come free
	order int  // of the last call among all calls to the lookout; 0 for none
	// next is when its own relief is due, of a lookout that needs nobody at times.
	next sim.Time
}

// clone returns a copy that shares nothing.
func (d lookout) clone() lookout {
	d.places, d.called = slices.Clone(d.places), maps.Clone(d.called)
	return d
}

func (c *check) lookouts() []lookout {
	list := make([]lookout, len(c.d.Lookouts))
	for l := range list {
		list[l] = lookout{last: -1, places: make([]place, c.d.Lookouts[l].Places), called: map[int]bool{}}
	}
	return list
}

// due marks the places that are owed somebody from this instant on: at from
// and at every relief, every place whose relief is not on the way. One who
// arrives at that very moment has arrived.
func (m *moment) due(lookouts []lookout) {
	for l := range lookouts {
		look := &m.c.d.Lookouts[l]
		from := m.c.beginsBy(l, func(k int) bool { return m.ended[k] })
		if look.UnlessWorked {
			m.dueThere(l, &lookouts[l], from)
			continue
		}
		if m.marked[l] || from == sim.Never || m.over(l) {
			continue
		}
		since := m.at - from
		if since != 0 && (since < 0 || look.Relief <= 0 || since%look.Relief != 0) {
			continue
		}
		m.marked[l] = true
		for i := range lookouts[l].places {
			if m.standing[l][i].coming < 0 && !lookouts[l].places[i].lost && !lookouts[l].places[i].owed {
				lookouts[l].places[i].owed, lookouts[l].places[i].tried = true, false
			}
		}
	}
}

// relieve follows the words on lookouts: places owed, vacant ones first, then
// the one called longest ago; for each the next free one in roster order,
// cyclically after the last one called there.
//
// Who is hurt is out before that, and at once when one of these reliefs comes for
// them.
func (m *moment) relieve(lookouts []lookout) {
	m.lieDown(lookouts)
	for l := range lookouts {
		d := &lookouts[l]
		if m.c.d.Lookouts[l].Hurt || m.over(l) || m.needless(l) {
			continue
		}
		var owed []int
		for i := range d.places {
			if d.places[i].owed {
				owed = append(owed, i)
			}
		}
		slices.SortStableFunc(owed, func(a, b int) int { return cmp.Compare(m.rank(l, a), m.rank(l, b)) })
		for _, i := range owed {
			p := m.nextFor(l, d, m.mayTakeOver)
			if p < 0 && m.c.d.Lookouts[l].IfNobody == sim.Pull && !d.places[i].tried {
				p = m.nextFor(l, d, func(p int) bool { return m.canBeSpared(p) && !m.hurt(p, lookouts) })
				d.places[i].tried = true
			}
			if p >= 0 {
				m.send(l, d, i, p)
			}
		}
	}
	m.lieDown(lookouts)
}

// rank orders the places of a lookout that are owed somebody: vacant ones first, then
// that to which somebody was called longest ago.
func (m *moment) rank(l, place int) int {
	if m.standing[l][place].there < 0 {
		return 0
	}
	return m.lookouts[l].places[place].order
}

// lieDown lets those who are hurt be out who have nothing to do or whose task can
// be left. At the moment of the hurt only they are taken from a task.
func (m *moment) lieDown(lookouts []lookout) {
	for l := range lookouts {
		look, d := &m.c.d.Lookouts[l], &lookouts[l]
		if !look.Hurt || !d.places[0].owed {
			continue
		}
		p := look.Who[0]
		leaves := look.IfNobody == sim.Pull && !d.places[0].tried && m.canBeSpared(p)
		d.places[0].tried = true
		if m.is[p] == free || leaves {
			m.send(l, d, 0, p)
		}
	}
}

// hurt reports whether a person is hurt and not out yet.
func (m *moment) hurt(p int, lookouts []lookout) bool {
	for l, look := range m.c.d.Lookouts {
		if look.Hurt && look.Who[0] == p && lookouts[l].places[0].owed {
			return true
		}
	}
	return false
}

// nextFor returns the next person who may, in roster order, cyclically after
// the last one called to the lookout; of one that needs nobody at times, the
// nearest; -1 if there is none.
func (m *moment) nextFor(l int, d *lookout, may func(p int) bool) int {
	if m.c.d.Lookouts[l].UnlessWorked {
		return m.nearest(l, may)
	}
	n := len(m.c.d.People)
	for i := 1; i <= n; i++ {
		p := (d.last + i) % n
		if m.c.mayStand(l, p) && may(p) {
			return p
		}
	}
	return -1
}

// mayTakeOver: free, and not relieved at this very moment.
func (m *moment) mayTakeOver(p int) bool { return m.is[p] == free && !m.relieved[p] }

// canBeSpared: there on a joinable task whose work goes on, and those left
// there still fill its minimum and its roles.
func (m *moment) canBeSpared(p int) bool {
	if m.is[p] != bound || !m.there[p] || !m.goesOn(m.on[p]) {
		return false
	}
	task := &m.c.d.Tasks[m.on[p]]
	_, there := m.boundTo(m.on[p])
	left := without(there, p)
	low, _ := bounds(task)
	return len(left) >= low && m.c.fills(task, left)
}

// send calls a person to a place. Who stood there stands until the relief has
// walked there.
func (m *moment) send(l int, d *lookout, i, p int) {
	spot := m.c.d.Lookouts[l].Spot
	m.spot[p] = m.whereIs(p)
	here := m.c.walk(m.spot[p], spot) == 0
	m.expected = append(m.expected, decision{what: relief, lookout: l, place: i, people: []int{p}, here: here})
	m.is[p], m.there[p] = onLookout, here
	now := &m.standing[l][i]
	if here {
		m.spot[p] = spot
		m.takeOver(l, i, p)
	} else {
		now.coming = p
	}
	d.last = p
	d.calls++
	d.places[i] = place{order: d.calls, next: d.places[i].next}
}

// settle closes an instant for the lookouts: where the timeline called
// somebody else than expected it is the timeline that holds from here on, and
// a place that nobody could fill is given up under skip.
func (m *moment) settle(before, lookouts []lookout) {
	for l := range lookouts {
		var calls []spell
		for _, s := range m.c.at[l] {
			if s.Called == m.at {
				calls = append(calls, s)
			}
		}
		if m.at < m.c.tl.End && !m.asExpected(l, calls) {
			owed := lookouts[l].places
			lookouts[l] = before[l].clone()
			for i := range owed {
				lookouts[l].places[i].owed = owed[i].owed || lookouts[l].places[i].owed
				lookouts[l].places[i].tried = owed[i].tried
			}
			for _, s := range calls {
				lookouts[l].last = s.Person
				lookouts[l].calls++
				lookouts[l].places[s.Place] = place{order: lookouts[l].calls, next: m.c.reliefAfter(l, m.at)}
			}
		}
		if m.c.d.Lookouts[l].IfNobody == sim.Skip {
			for i := range lookouts[l].places {
				lookouts[l].places[i].owed = false
			}
		}
	}
}

// asExpected reports whether the calls to a lookout are those expected.
func (m *moment) asExpected(l int, calls []spell) bool {
	n := 0
	for _, e := range m.expected {
		if e.what != relief || e.lookout != l || m.untold(e) {
			continue
		}
		n++
		found := false
		for _, s := range calls {
			found = found || s.Place == e.place && s.Person == e.people[0]
		}
		if !found {
			return false
		}
	}
	return n == len(calls)
}
