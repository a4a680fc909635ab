package checker

import "warmby/sim"

// about is what a person is about at a moment of allocation.
type about int

const (
	away      about = iota // not yet arrived
	free                   // to be called
	bound                  // to a task, there or on the way
	onLookout              // at a lookout or on the way to one
	late                   // on the way to a task that has ended meanwhile
)

// moment is how things stand at one instant, read off the timeline as it is
// just before the allocation and then carried on by its words.
type moment struct {
	c  *check
	at sim.Time

	is       []about // of each person
	on       []int   // the task that the person is bound to
	there    []bool  // whether the person is there
	spot     []int   // where the person is, or walks from
	relieved []bool  // relieved at this instant: may be given a task but no lookout

	called, begun, ended []bool    // of each task
	lookouts             []lookout // of each lookout
	marked               []bool    // whether what is due at it now has been marked
	freed                []bool    // whether work there has ended, so that all its places are due
	standing             [][]standing

	expected []decision
}

// standing is who is at one place of a lookout; -1 for nobody.
type standing struct{ there, coming int }

// decision is one thing that an allocation decides.
type decision struct {
	what           choice
	task           int // for call and join
	group          int // for call
	lookout, place int // for relief
	people         []int
	here           bool  // whether a relief needs no walk
	units          []int // stoves of which a call takes one; nil for none
}

type choice int

const (
	relief choice = iota
	call
	join
)

// momentAt reads how things stand at an instant when all its events have been
// handled: tasks end first, then walkers arrive, then tasks whose crew is
// whole start. What the timeline has called at this very instant is left out.
func (c *check) momentAt(at sim.Time, lookouts []lookout) *moment {
	n, tasks := len(c.d.People), len(c.d.Tasks)
	m := &moment{c: c, at: at, lookouts: lookouts, marked: make([]bool, len(lookouts)), freed: make([]bool, len(lookouts)),
		is: make([]about, n), on: make([]int, n), there: make([]bool, n), spot: make([]int, n), relieved: make([]bool, n),
		called: make([]bool, tasks), begun: make([]bool, tasks), ended: make([]bool, tasks)}
	for k, t := range c.tl.Tasks {
		m.called[k] = t.Called < at
		m.begun[k] = m.called[k] && t.Start <= at
		m.ended[k] = m.called[k] && t.End <= at
	}
	for p := range c.d.People {
		m.read(p)
	}
	m.readStanding()
	for l := range m.freed {
		m.freed[l] = m.workedUntil(l)
	}
	return m
}

// read sets what a person is about from the stretch that leads up to the
// moment.
func (m *moment) read(p int) {
	arrives := m.c.luck.Person[p]
	if arrives > m.at {
		return
	}
	var s *sim.Stretch
	for i := range m.c.tl.People[p] {
		if t := &m.c.tl.People[p][i]; t.From < m.at && (m.at <= t.To || t.To == m.c.tl.End) {
			s = t
		}
	}
	if s == nil {
		if arrives == m.at || m.at > m.c.tl.End {
			m.is[p], m.spot[p] = free, m.c.d.People[p].Begin
		}
		return
	}
	m.spot[p] = s.Spot
	switch s.What {
	case sim.Free:
		m.is[p] = free
	case sim.Watching:
		m.is[p], m.there[p] = onLookout, true
		if m.over(s.Lookout) || m.freesNow(s.Lookout) {
			m.is[p] = free
		}
	case sim.Ready, sim.Working:
		m.bind(p, s.Task, true)
	case sim.Walking:
		here := s.From+m.c.walk(s.Origin, s.Spot) <= m.at
		if !here {
			m.spot[p] = s.Origin
		}
		if s.Lookout >= 0 {
			m.is[p], m.there[p] = onLookout, here
			switch {
			case !m.over(s.Lookout) && !m.lookouts[s.Lookout].places[s.Place].lost:
				if here && m.freesNow(s.Lookout) {
					m.is[p] = free
				}
			case here:
				m.is[p] = free
			default:
				m.is[p] = late
			}
		} else {
			m.bind(p, s.Task, here)
		}
	}
}

// bind puts a person on a task; one that has ended gives the person back, and
// one on the way to it walks on.
func (m *moment) bind(p, task int, here bool) {
	m.is[p], m.on[p], m.there[p] = bound, task, here
	if m.ended[task] {
		m.is[p] = late
		if here {
			m.is[p] = free
		}
	}
}

// readStanding sets who stands where. Who stood where a relief arrives now is
// free there and then.
func (m *moment) readStanding() {
	m.standing = make([][]standing, len(m.c.d.Lookouts))
	for l := range m.standing {
		m.standing[l] = make([]standing, m.c.d.Lookouts[l].Places)
		for i := range m.standing[l] {
			m.standing[l][i] = standing{there: -1, coming: -1}
		}
		for _, s := range m.c.at[l] {
			now := &m.standing[l][s.Place]
			switch {
			case s.Called >= m.at, m.over(l), m.lookouts[l].places[s.Place].lost:
			case s.Arrives > m.at:
				now.coming = s.Person
			case s.Left < m.at, s.Arrives == m.at && m.needlessOnArrival(l):
			default:
				if s.Arrives == m.at {
					m.takeOver(l, s.Place, s.Person)
				}
				now.there = s.Person
			}
		}
		if m.freesNow(l) {
			m.letGo(l)
		}
	}
}

// takeOver puts a person at a place. Who stood there is free there and then.
func (m *moment) takeOver(l, place, p int) {
	now := &m.standing[l][place]
	if old := now.there; old >= 0 {
		m.standDown(l, old)
	}
	now.there = p
	m.lookouts[l].places[place].next = m.c.reliefAfter(l, m.at)
}

// standDown frees a person just relieved, at the spot of the lookout.
func (m *moment) standDown(l, p int) {
	m.is[p], m.spot[p], m.relieved[p] = free, m.c.d.Lookouts[l].Spot, true
}

// release gives back the people of a task that has ended, at its spot; those
// still on the way walk on.
func (m *moment) release(k int) {
	for p := range m.is {
		if m.is[p] == bound && m.on[p] == k {
			m.is[p] = late
			if m.there[p] {
				m.is[p], m.spot[p] = free, m.c.d.Tasks[k].Spot
			}
		}
	}
}

// boundTo counts the people on a task or on the way to it, and lists those
// who are there.
func (m *moment) boundTo(k int) (n int, there []int) {
	for p := range m.is {
		if m.is[p] == bound && m.on[p] == k {
			n++
			if m.there[p] {
				there = append(there, p)
			}
		}
	}
	return n, there
}

// goesOn reports whether people may join a task, or be spared from it: it is
// joinable, work has begun and is not done.
func (m *moment) goesOn(k int) bool {
	task := &m.c.d.Tasks[k]
	return task.Joinable && (task.Kind == sim.Work || task.Kind == sim.Timed) &&
		m.begun[k] && !m.ended[k] && m.c.tl.Tasks[k].Worked > m.at
}

// toolsFree returns how many of a tool nobody holds.
func (m *moment) toolsFree(tool int) int {
	n := m.c.toolsThere(tool, func(k int) bool { return m.ended[k] })
	for k := range m.called {
		if !m.called[k] || m.ended[k] {
			continue
		}
		for _, need := range m.c.d.Tasks[k].Tools {
			if need.Tool != tool {
				continue
			}
			if need.Each {
				bound, _ := m.boundTo(k)
				n -= bound
			} else {
				n -= need.Count
			}
		}
	}
	return n
}
