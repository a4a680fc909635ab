package checker

import (
	"fmt"
	"slices"

	"warmby/sim"
)

// allocations follows the allocation at every instant and compares what it
// decides with what the timeline has: who is called to which lookout, which
// tasks start with whom (so also that none is left that might have started),
// who joins, and who stands at lookouts from then on.
func (c *check) allocations() {
	lookouts := c.lookouts()
	fixed := c.instants()
	var instants []sim.Time
	for at := c.next(-1, fixed, lookouts); at != sim.Never && (at < c.stop || c.tl.End > c.stop); at = c.next(at, fixed, lookouts) {
		instants = append(instants, at)
		m := c.momentAt(at, lookouts)
		before := make([]lookout, len(lookouts))
		for l := range lookouts {
			before[l] = lookouts[l].clone()
		}
		m.allocate(lookouts)
		m.compare()
		m.settle(before, lookouts)
	}
	if c.tl.End == c.stop {
		instants = append(instants, c.stop)
	}
	c.calledInTime(instants)
}

// allocate: lookouts due; then each group in turn, its tasks in sequence. If
// it starts anything the instant is gone through again until nothing more
// starts; only then are joiners sent.
func (m *moment) allocate(lookouts []lookout) {
	for {
		m.due(lookouts)
		m.relieve(lookouts)
		started := m.start()
		// a task of no length ends at the instant it starts and gives its
		// people back there
		for _, k := range started {
			if m.begun[k] && m.c.tl.Tasks[k].End == m.at {
				m.ended[k] = true
				m.release(k)
			}
		}
		if len(started) == 0 {
			break
		}
	}
	m.join()
}

// start calls what may start and returns it. A task that may not is passed
// over or, in turn, stops the scan of that group, unless it is unloading
// that the order does not name.
func (m *moment) start() []int {
	var started []int
	for i, det := range m.c.d.Groups {
		for j, k := range det.Sequence {
			if m.called[k] {
				continue
			}
			if crew, ok := m.mayStart(k, i); ok {
				m.call(k, i, crew)
				started = append(started, k)
			} else if det.InTurn && j >= det.Lead {
				break
			}
		}
	}
	return started
}

// mayStart reports whether a group can start a task now: after, items,
// tools, stoves, crew.
func (m *moment) mayStart(k, group int) ([]int, bool) {
	task := &m.c.d.Tasks[k]
	if m.waits(k) != "" || m.c.burns(k) >= 0 && len(m.units(k)) == 0 {
		return nil, false
	}
	most := len(m.c.d.People)
	low, _ := bounds(task)
	for _, need := range task.Tools {
		spare := m.toolsFree(need.Tool)
		if need.Each {
			most = min(most, spare) // so that tools limit the crew
		} else if spare < need.Count {
			return nil, false
		}
	}
	if most < low {
		return nil, false
	}
	return m.c.choose(task, append(m.pool(group), m.lentTo(k, group)...), m.spot, most)
}

func (m *moment) waits(k int) string {
	return m.c.waitsFor(k, m.at, func(k int) bool { return m.ended[k] }, func(k int) bool { return m.begun[k] })
}

// call binds a crew to a task; if all of it is there work begins at once,
// which counts for the tasks looked at after it.
func (m *moment) call(k, group int, crew []int) {
	e := decision{what: call, task: k, group: group, people: crew}
	if m.c.burns(k) >= 0 {
		e.units = m.units(k)
	}
	m.expected = append(m.expected, e)
	m.called[k] = true
	whole := true
	for _, p := range crew {
		if m.is[p] == onLookout {
			m.callFrom(p, k)
		}
		here := m.c.walk(m.spot[p], m.c.d.Tasks[k].Spot) == 0
		m.is[p], m.on[p], m.there[p] = bound, k, here
		whole = whole && here
	}
	if whole {
		m.begun[k] = true
		m.endLookouts(k)
		m.beginThere(k)
	}
	m.lieDown(m.lookouts) // whoever came off a lookout and is hurt
}

// join sends those left to joinable tasks that go on: group by group, in
// sequence, from the group's own people and those lent to it, up to the
// maximum and as tools allow, each only if there before the work is done as
// things stand.
func (m *moment) join() {
	for i, det := range m.c.d.Groups {
		for _, k := range det.Sequence {
			if m.goesOn(k) {
				m.joinTo(k, i)
			}
		}
	}
}

func (m *moment) joinTo(k, group int) {
	task := &m.c.d.Tasks[k]
	_, high := bounds(task)
	for _, p := range m.c.rank(task, m.pool(group), m.spot) {
		n, there := m.boundTo(k)
		if n >= high {
			return
		}
		for _, need := range task.Tools {
			if need.Each && m.toolsFree(need.Tool) < 1 {
				return
			}
		}
		walk := m.c.walk(m.spot[p], task.Spot)
		if done := m.c.doneAt(k, m.at, there); m.at+walk >= done {
			continue
		}
		m.expected = append(m.expected, decision{what: join, task: k, people: []int{p}})
		m.is[p], m.on[p], m.there[p] = bound, k, walk == 0
	}
}

// compare reports the first decision of the instant that the timeline has
// otherwise. What happens to people at the very end of the drill has no
// length and cannot be seen; a task called then can.
func (m *moment) compare() {
	seen := m.at < m.c.tl.End
	if seen && m.compareReliefs() {
		return
	}
	if m.compareCalls() {
		return
	}
	if seen && !m.compareJoins() {
		m.compareStanding()
		m.compareFree()
	}
}

func (m *moment) compareReliefs() bool {
	c := m.c
	expected := map[[2]int]int{}
	for _, e := range m.expected {
		if e.what != relief || m.untold(e) {
			continue
		}
		expected[[2]int{e.lookout, e.place}] = e.people[0]
		got := []int{}
		for _, s := range c.at[e.lookout] {
			if s.Called == m.at && s.Place == e.place {
				got = append(got, s.Person)
			}
		}
		if len(got) != 1 || got[0] != e.people[0] {
			c.broken(m.at, "relief", c.lookout(e.lookout), c.names(got)+" called", c.names(e.people))
			return true
		}
	}
	for l := range c.d.Lookouts {
		for _, s := range c.at[l] {
			if _, ok := expected[[2]int{l, s.Place}]; s.Called == m.at && !ok {
				c.broken(m.at, "relief", c.lookout(l), c.d.People[s.Person].Name+" called", "nobody")
				return true
			}
		}
	}
	return false
}

func (m *moment) compareCalls() bool {
	c := m.c
	expected := map[int]bool{}
	for _, e := range m.expected {
		if e.what != call {
			continue
		}
		expected[e.task] = true
		t := c.tl.Tasks[e.task]
		if t.Called != m.at {
			c.broken(m.at, "idle", c.task(e.task), "called at "+clock(t.Called), "now, for it may start with "+c.names(e.people))
			return true
		}
		if t.Group != e.group {
			c.broken(m.at, "group", c.task(e.task), "called by "+c.d.Groups[max(0, t.Group)].Name, c.d.Groups[e.group].Name)
			return true
		}
		got := c.boundFrom(e.task, t.Called)
		if !c.unseen(e.task) && missing(e.people, got) {
			c.broken(m.at, "choice", c.task(e.task), c.names(got)+" called", c.names(e.people))
			return true
		}
	}
	if m.compareUnits() {
		return true
	}
	for k, t := range c.tl.Tasks {
		if t.Called == m.at && !expected[k] {
			why := m.waits(k)
			if why == "" {
				why = "tools, stoves, its crew or its turn are wanting"
			}
			c.broken(m.at, "called", c.task(k), "called now", "not yet: "+why)
			return true
		}
	}
	return false
}

// compareUnits reports the first task called that has another stove of its kind
// than it should.
func (m *moment) compareUnits() bool {
	c := m.c
	for _, e := range m.expected {
		if e.what != call || e.units == nil {
			continue
		}
		if got := c.tl.Tasks[e.task].Unit; !slices.Contains(e.units, got) {
			c.broken(m.at, "unit", c.task(e.task), fmt.Sprintf("takes number %d of %s", got, c.stove(c.burns(e.task))), fmt.Sprintf("one of %v", e.units))
			return true
		}
	}
	return false
}

func (m *moment) compareJoins() bool {
	c := m.c
	for k := range c.d.Tasks {
		var crew, joins []int
		for _, e := range m.expected {
			switch {
			case e.task != k:
			case e.what == call:
				crew = e.people
			case e.what == join:
				joins = append(joins, e.people...)
			}
		}
		var got []int
		for _, p := range c.boundFrom(k, m.at) {
			if missing([]int{p}, crew) {
				got = append(got, p)
			}
		}
		// one who was pulled away within the instant and sent back was on it before
		absent := slices.DeleteFunc(slices.Clone(joins), func(p int) bool { return c.onTask(p, k, m.at) })
		if len(absent) > 0 || missing(got, joins) {
			c.broken(m.at, "join", c.task(k), c.names(got)+" sent", c.names(joins))
			return true
		}
	}
	return false
}

// onTask reports whether somebody is on a task at a moment, or on the way to it.
func (c *check) onTask(p, k int, at sim.Time) bool {
	return slices.ContainsFunc(c.on[k], func(s spell) bool { return s.Person == p && s.during(at) })
}

// boundFrom lists those bound to a task from a moment on.
func (c *check) boundFrom(k int, at sim.Time) []int {
	var people []int
	for _, s := range c.on[k] {
		if s.Called == at {
			people = append(people, s.Person)
		}
	}
	return people
}

// missing reports whether some of want are not in got.
func missing(want, got []int) bool {
	for _, p := range want {
		found := false
		for _, q := range got {
			found = found || p == q
		}
		if !found {
			return true
		}
	}
	return false
}
