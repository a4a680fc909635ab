package reference

import (
	"slices"

	"github.com/fschuetz04/simgo"

	"warmby/sim"
)

// Play plays one drill with one set of draws and returns its timeline. In a
// drill in which a task can never start, or that has not finished after
// [sim.Horizon], what has not ended is [sim.Never], and Stops says why.
func Play(d *sim.Drill, luck *sim.Luck) *sim.Timeline {
	c := newCamp(d, luck)
	defer c.dismiss()
	c.RunUntil(float64(sim.Horizon) + 1)
	if c.over && c.clash == nil {
		return c.timeline(c.end)
	}
	tl := c.timeline(c.lastChange)
	tl.Stops = c.stops()
	return tl
}

// camp is everything that the processes of one drill share.
type camp struct {
	*simgo.Simulation
	d    *sim.Drill
	luck *sim.Luck

	steps []sim.Step
	step  int // the one that holds now

	people   []*person
	jobs     []*job
	lookouts []*lookout

	toolsFree []int            // of each kind, there and held by nobody
	stoves    [][]unit         // of each kind, those that are there
	brought   []int            // of each kind of stove, how many items have brought
	shelters  []sim.Shelter    // as they are now
	airs      []*air           // of the shelters
	offLoad   []bool           // items
	loadThere []bool           // loads
	calls     int              // numbers the calls to lookouts
	picker    sim.Picker       // picks crews
	at        []int            // the spot of each person, for the picker
	due       map[sim.Time]int // timers by the moment at which they ring
	setting   int              // people called and jobs begun whose processes have yet to set their timers

	something  *simgo.Event // tells the chief that something has happened
	over       bool         // every task has ended
	dismissed  bool         // every process is to return
	end        sim.Time
	lastChange sim.Time   // when a task was last called, begun or ended
	clash      *sim.Cause // a warm-up begun while another stove burns in its shelter
}

// unit is one stove of its kind: what is on it, and the warm-up that lit it, ended
// or not. It dies when it is to go out as soon as the melt on it has ended.
type unit struct {
	melt, warm *job
	dies       bool
}

func newCamp(d *sim.Drill, luck *sim.Luck) *camp {
	c := &camp{
		Simulation: simgo.NewSimulation(),
		d:          d, luck: luck,
		steps:     d.Steps(luck.Weather),
		toolsFree: make([]int, len(d.Tools)),
		stoves:    make([][]unit, len(d.Stoves)),
		brought:   make([]int, len(d.Stoves)),
		shelters:  append([]sim.Shelter(nil), d.Shelters...),
		offLoad:   make([]bool, len(d.Items)),
		loadThere: make([]bool, len(d.Loads)),
		at:        make([]int, len(d.People)),
		due:       map[sim.Time]int{},
	}
	for i, t := range d.Tools {
		c.toolsFree[i] = t.Count
	}
	for i, s := range d.Stoves {
		if !s.Brought {
			c.stoves[i] = make([]unit, s.Count)
		}
	}
	c.something = c.Event()
	c.Process(c.chief)
	c.happen() // the team's arrival
	for i := range d.People {
		c.addPerson(i)
	}
	for i := range d.Tasks {
		c.addJob(i)
	}
	for i := range d.Loads {
		c.timer(luck.Load[i], func() { c.loadThere[i] = true })
	}
	for i := range d.Lookouts {
		c.addLookout(i)
	}
	for i := range d.Shelters {
		c.addAir(i)
	}
	for i := 1; i < len(c.steps); i++ {
		c.timer(c.steps[i].At, func() { c.step = i })
	}
	return c
}

// now returns the clock.
func (c *camp) now() sim.Time { return sim.Time(c.Now()) }

// happen tells the chief that something has happened at this instant.
func (c *camp) happen() {
	c.something.Trigger()
}

// until lets a process wait for a moment; the chief does not look at an
// instant before everybody who waits for it has woken.
func (c *camp) until(proc simgo.Process, t sim.Time) {
	c.due[t]++
	proc.Wait(proc.Timeout(float64(t - c.now())))
	c.rung(t)
}

func (c *camp) rung(t sim.Time) {
	if c.due[t]--; c.due[t] == 0 {
		delete(c.due, t)
	}
}

// timer does something at a moment of its own.
func (c *camp) timer(t sim.Time, do func()) {
	c.timerWhile(t, func() bool { do(); return true })
}

// timerWhile makes a moment one at which something happens, if it still holds
// then.
func (c *camp) timerWhile(t sim.Time, holds func() bool) {
	c.setting++
	c.Process(func(proc simgo.Process) {
		c.setting--
		c.until(proc, t)
		if c.over || c.dismissed {
			return
		}
		if holds() {
			c.happen()
		}
	})
}

// dismiss lets every process return: the library keeps those that still wait,
// and panics in the garbage collector about those shut down while they do.
func (c *camp) dismiss() {
	c.dismissed = true
	for _, j := range c.jobs {
		if j.changes != nil {
			j.changes.Trigger()
		}
	}
	c.something.Trigger()
	c.Run()
}

// changed remembers the last moment at which a task changed.
func (c *camp) changed() { c.lastChange = c.now() }

// timeline puts together what happened up to end.
func (c *camp) timeline(end sim.Time) *sim.Timeline {
	tl := &sim.Timeline{Drill: c.d, Luck: c.luck, End: end}
	for _, j := range c.jobs {
		t := j.times
		t.People = slices.Clone(t.People)
		slices.Sort(t.People)
		t.People = slices.Compact(t.People) // somebody pulled may have come back
		tl.Tasks = append(tl.Tasks, t)
	}
	for _, p := range c.people {
		tl.People = append(tl.People, p.stretchesUntil(end))
	}
	tl.SetMilestones()
	return tl
}
