package reference

import (
	"slices"

	"github.com/fschuetz04/simgo"

	"warmby/sim"
	"warmby/sim/heat"
)

// job is a task as it is carried out.
type job struct {
	i       int
	task    *sim.Task
	times   sim.TaskTimes
	phase   phase
	there   []*person // the crew at the task
	onWay   []*person // called, and walking
	holding []int     // how many of each of task.Tools

	left    sim.Labour   // work not yet done
	rate    int64        // what the crew gets done each millisecond
	since   sim.Time     // from when left and rate hold
	due     sim.Time     // when the phase ends as things stand
	cleared sim.Time     // handling of a melt, which comes after the heat
	took    []*lookout   // lookouts from which it called somebody who stood there
	then    bool         // whether the condition of its mishap held at the start
	changes *simgo.Event // tells the process that due has changed
}

// phase is how far a job has got.
type phase int

const (
	waiting phase = iota // not called
	called               // the crew is on its way
	working
	mishap // the work is done and something has gone wrong
	ended
)

func (c *camp) addJob(i int) {
	never := sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
	t := &c.d.Tasks[i]
	c.jobs = append(c.jobs, &job{i: i, task: t, times: never, due: sim.Never, holding: make([]int, len(t.Tools))})
}

// begin starts the work: the whole crew is there.
func (c *camp) begin(j *job) {
	now := c.now()
	j.phase, j.times.Start, j.since = working, now, now
	if m := j.task.Mishap; m != nil && m.When != nil {
		j.then = m.When.Holds(&c.d.Site, c.steps[c.step])
	}
	c.changed()
	for _, p := range j.there {
		c.stay(p, sim.Working)
		j.times.People = append(j.times.People, p.i)
	}
	switch j.task.Kind {
	case sim.Takes:
		j.due = now + c.luck.Amount[j.i]
	case sim.Melt:
		m := heat.Melt(&c.d.Site, &c.d.Stoves[j.task.Melt.Stove], j.task.Melt)
		j.due = sim.Never
		if m.Time != sim.Never {
			j.left, j.cleared = sim.WorkOf(m.Heating, sim.WorkUnit), m.Time-m.Heating
			if j.left.None() { // else see setRate
				j.due = now + j.cleared
			}
		}
	case sim.Warm:
		if !c.clashes(j) {
			c.lightUp(j)
		}
	default:
		j.left = j.task.Work(c.luck.Amount[j.i])
		if j.left.None() {
			j.due = now
		}
	}
	c.lags(j, true)
	c.endLookouts(j)
	c.settle()
	j.changes = c.Event()
	c.setting++
	c.Process(func(proc simgo.Process) { c.carryOut(proc, j) })
}

// carryOut is the process of a job under way: it waits for the end of the
// phase, which moves when the crew or the conditions change.
func (c *camp) carryOut(proc simgo.Process, j *job) {
	c.setting--
	for j.phase != ended && !c.dismissed {
		due, change := j.due, j.changes
		if due == sim.Never {
			proc.Wait(change)
			continue
		}
		c.due[due]++
		proc.Wait(proc.AnyOf(proc.Timeout(float64(max(0, due-c.now()))), change))
		c.rung(due)
		if !change.Triggered() {
			c.happen()
			proc.Wait(change) // the chief moves the job on to its next phase
		}
	}
}

// moved tells the process of a job that its due time is another.
func (c *camp) moved(j *job) {
	old := j.changes
	j.changes = c.Event()
	old.Trigger()
}

// setRate works out anew how fast a job gets on.
func (c *camp) setRate(j *job) {
	now := c.now()
	before := j.due
	switch {
	case j.phase != working:
		return
	case j.task.Kind == sim.Melt:
		if j.left = j.left.After(j.rate, now-j.since); j.left.None() {
			break
		}
		j.rate = sim.MeltRate(j.task.Slowed1000(&c.d.Site, c.steps[c.step]))
		j.since = now
		j.due = sim.Never
		if dt := j.left.Takes(j.rate); dt < sim.Never-now-j.cleared {
			j.due = now + dt + j.cleared
		}
	case j.task.Worked():
		j.left = j.left.After(j.rate, now-j.since)
		var paces int64
		for _, p := range j.there {
			paces += c.luck.PaceOf(c.d, p.i)
		}
		slowed := j.task.Slowed1000(&c.d.Site, c.steps[c.step])
		j.rate = sim.Rate(len(j.there), j.task.Teamwork, paces, slowed)
		j.since = now
		j.due = sim.Never
		if dt := j.left.Takes(j.rate); dt < sim.Never-now {
			j.due = now + dt
		}
	}
	if j.due != before {
		c.moved(j)
	}
}

// finish moves a job whose phase is over on to the next: from work to what a
// mishap adds, and to the end.
func (c *camp) finish(j *job) {
	now := c.now()
	c.changed()
	if j.phase == working {
		j.times.Worked = now
		if adds := c.mishap(j); adds > 0 {
			j.phase, j.due = mishap, now+adds
			c.moved(j)
			return
		}
	}
	j.phase, j.times.End = ended, now
	for _, p := range j.there {
		c.release(p)
	}
	for k, n := range j.holding {
		c.toolsFree[j.task.Tools[k].Tool] += n
	}
	c.giveBack(j)
	if j.task.Unloads() {
		c.takeOff(j.task.Item)
	}
	if len(j.task.Makes) > 0 {
		c.remake()
	}
	c.lags(j, false)
	c.beginLookouts()
	c.settle()
	c.moved(j)
}

// mishap returns what mishaps add to a task.
func (c *camp) mishap(j *job) sim.Time {
	if j.then && c.luck.MishapThen != nil {
		return c.luck.MishapThen[j.i]
	}
	return c.luck.Mishap[j.i]
}

// takeOff makes an item, and what it brings, available.
func (c *camp) takeOff(item int) {
	c.offLoad[item] = true
	for _, b := range c.d.Items[item].Brings {
		if b.Tool >= 0 {
			c.toolsFree[b.Tool] += b.Count
			continue
		}
		c.brought[b.Stove] += b.Count
		for len(c.stoves[b.Stove]) < min(c.brought[b.Stove], c.d.Stoves[b.Stove].Count) {
			c.stoves[b.Stove] = append(c.stoves[b.Stove], unit{})
		}
	}
}

// remake works out what the shelters are like after the tasks that have
// ended: of two that make the same, the one that ended later counts; at one
// instant, file order.
func (c *camp) remake() {
	copy(c.shelters, c.d.Shelters)
	var makers []*job
	for _, j := range c.jobs {
		if j.phase == ended && len(j.task.Makes) > 0 {
			makers = append(makers, j)
		}
	}
	slices.SortStableFunc(makers, func(a, b *job) int { return int(min(1, max(-1, a.times.End-b.times.End))) })
	for _, j := range makers {
		for _, m := range j.task.Makes {
			c.shelters[m.Shelter] = heat.Apply(c.shelters[m.Shelter], m)
		}
	}
}

// lags sets a timer for every task that may start some time after this one
// has started or ended.
func (c *camp) lags(j *job, fromStart bool) {
	for i := range c.d.Tasks {
		for _, a := range c.d.Tasks[i].After {
			if a.Task == j.i && a.FromStart == fromStart && a.Lag > 0 {
				c.timer(c.now()+a.Lag, func() {})
			}
		}
	}
}
