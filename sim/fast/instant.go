package fast

import (
	"slices"

	"warmby/sim"
	"warmby/sim/heat"
)

// until plays on up to and including a moment, or to the end of the drill.
func (w *Worker) until(last sim.Time) {
	for at := w.now; w.left > 0 && w.clash == nil && at <= last; at = w.soonest() {
		w.now, w.bound = at, keyOf(at+1, 0, 0)
		if at == w.nextStep {
			w.takeStep()
		}
		w.instant()
	}
}

// stepOn goes on to the next step outside.
func (w *Worker) stepOn() {
	w.events++
	w.step++
	w.row++
	w.nextStep = sim.Never
	if w.step+1 < len(w.steps) {
		w.nextStep = w.steps[w.step+1].At
	}
}

// takeStep is stepOn where what is under way may be slowed otherwise.
func (w *Worker) takeStep() {
	w.stepOn()
	for _, i := range w.p.slowed {
		if w.jobs[i].phase == working {
			w.spoil(i)
		}
	}
	w.todo |= toHeat
}

// instant goes through one moment: its events, then the allocation, again and
// again until nothing more starts; only then joiners are sent.
func (w *Worker) instant() {
	for {
		for n := len(w.queue) - 1; n >= 0; n = len(w.queue) - 1 {
			key := w.queue[n]
			if key >= w.bound {
				break
			}
			w.queue = w.queue[:n]
			w.events++
			if i, kind := int32(key&(1<<indexBits-1)), key>>indexBits&(1<<kindBits-1); kind == jobEnds {
				w.finish(i)
			} else {
				w.handle(i, kind)
			}
		}
		if w.todo != 0 {
			w.goOn()
			continue
		}
		if w.left == 0 || w.clash != nil {
			return
		}
		if (w.look|uint64(w.owed) != 0 || w.nextLookout == w.now) && w.allocate() && w.unsettled() {
			continue
		}
		if w.joining == 0 || !w.stirred || !w.sendJoiners() {
			break
		}
	}
	if w.owed > 0 {
		w.giveUp()
		if w.owed > 0 && w.barredAt == w.now {
			w.lookAgain()
		}
	}
}

// handle deals with an event that is no end of a task.
func (w *Worker) handle(i int32, kind uint64) {
	switch kind {
	case walker:
		w.arrive(i)
	case gathered:
		j := &w.jobs[i]
		w.events += int(j.onWay) - 1
		j.onWay = 0
		w.whole = append(w.whole, i)
		w.todo |= toBegin
	default:
		w.oneLess(i)
	}
}

// lookAgain makes a moment of the next arrival anywhere. Those who are barred from
// lookouts at this moment may be called then, and the first of a crew to come makes
// no moment otherwise.
func (w *Worker) lookAgain() {
	next, at := int32(-1), sim.Never
	for who := range w.crew {
		if m := &w.crew[who]; m.there > w.now && m.there < at && m.lookout < 0 && w.jobs[m.task].phase == called {
			next, at = int32(who), m.there
		}
	}
	if next >= 0 {
		w.push(keyOf(at, walker, next))
	}
}

// unsettled reports whether what has just been started has left anything to go
// through the moment again for; at two fires in one shelter no joiners are sent.
func (w *Worker) unsettled() bool {
	return w.look != 0 || w.todo != 0 || w.owed > 0 || w.due() || w.clash != nil
}

// goOn deals with the first of what a moment has to do besides events: tasks with a
// whole crew begin, and rates are set anew once there is nothing else.
func (w *Worker) goOn() {
	switch {
	case w.todo&toPutOut != 0: // once all warm-ups have ended that do now
		w.todo &^= toPutOut
		for _, i := range w.puts {
			w.putOut(&w.tasks[i])
		}
		w.puts = w.puts[:0]
	case w.todo&toCome != 0:
		w.todo &^= toCome
		for k := 0; k < len(w.come); k++ {
			w.arrive(w.come[k])
		}
		w.come = w.come[:0]
	case w.todo&toBegin != 0:
		w.todo &^= toBegin
		if len(w.whole) > 1 && len(w.p.warmers) > 1 { // of two in one shelter the first in the file is lit
			slices.Sort(w.whole)
		}
		for _, i := range w.whole {
			w.begin(i, &w.jobs[i], &w.tasks[i])
		}
		w.whole = w.whole[:0]
	default:
		if w.todo&toRate != 0 {
			for _, i := range w.dirty {
				w.setRate(i)
			}
			w.dirty = w.dirty[:0]
		}
		if w.todo&toHeat != 0 {
			w.changeAirs()
		}
		w.todo = 0
	}
}

// spoil marks a task whose rate is to be set anew.
func (w *Worker) spoil(i int32) {
	if j := &w.jobs[i]; !j.stale {
		j.stale = true
		w.dirty = append(w.dirty, i)
		w.todo |= toRate
	}
}

// oneLess takes one from what a task waits for.
func (w *Worker) oneLess(i int32) {
	if w.pending[i]--; w.pending[i] > 0 {
		return
	}
	at := w.tasks[i].at
	for k := range at {
		s := &w.segments[at[k].word]
		s.ready |= at[k].bit
		s.news |= at[k].bit
		w.look |= bitOf(at[k].group)
	}
}

// tell marks positions as those for which something has come free.
func (w *Worker) tell(of []uint64) {
	for k := range w.segments[:len(of)] {
		w.segments[k].news |= of[k]
	}
}

// freed makes some people free, when not wide: the groups that can use them
// are to be gone through.
func (w *Worker) freed(people uint64) {
	w.free |= people
	w.came |= people
	w.stirred = true
	if w.p.all == 1 {
		w.look = 1
		return
	}
	look := w.look
	for di := range w.pools {
		if w.pools[di].people&people != 0 {
			look |= bitOf(int32(di))
		}
	}
	w.look = look
}

// release makes a person free where they stand.
func (w *Worker) release(who int32) {
	if w.p.wide {
		w.idle.add(who)
		w.stirred = true
		n := len(w.segments)
		w.tell(w.p.does[n*int(who):][:n])
		for di, crowd := range w.crowds {
			if crowd.has(who) {
				w.look |= 1 << di
			}
		}
	} else {
		w.freed(bitOf(who))
	}
	if w.rec != nil {
		w.rec.frees(w, who)
	}
}

// occupy makes a person not free.
func (w *Worker) occupy(who int32) *crewman {
	m := &w.crew[who]
	if w.p.wide {
		w.idle.drop(who)
	} else {
		w.free &^= bitOf(who)
	}
	return m
}

// isFree reports whether a person has nothing to do.
func (w *Worker) isFree(who int32) bool {
	if w.p.wide {
		return w.idle.has(who)
	}
	return w.free>>who&1 == 1
}

// thereOn returns the people there on a task, as scratch space: it is valid
// until the next call.
func (w *Worker) thereOn(i int32) []int32 {
	j, t := &w.jobs[i], &w.tasks[i]
	there := w.slots[t.crew : t.crew+j.there]
	if !w.p.wide {
		there = there[:0]
		for m := j.crew; m != 0; m &= m - 1 {
			there = append(there, lowest(m))
		}
	}
	return there
}

// arrive is what follows when a person comes to the camp or to a spot.
func (w *Worker) arrive(who int32) {
	m := &w.crew[who]
	switch {
	case !m.here:
		m.here = true
		w.release(who)
	case m.lookout >= 0:
		w.takeOver(who)
	case w.jobs[m.task].phase == called: // see lookAgain; gather counts it
		w.events--
	case w.jobs[m.task].phase == ended: // the end has overtaken a joiner
		w.release(who)
	default:
		w.joinIn(m.task, who)
	}
}

// joinIn adds a person who has come to join a task to those who are there.
func (w *Worker) joinIn(i, who int32) {
	j := &w.jobs[i]
	if w.p.wide {
		w.slots[w.tasks[i].crew+j.there] = who
	} else {
		j.crew |= 1 << who
	}
	j.onWay--
	j.there++
	j.paces += w.pace(who)
	w.changed = w.now
	if w.rec != nil {
		w.rec.joins(w, who, i)
	}
	if j.phase == working {
		w.spoil(i)
	}
}

// dismiss makes everybody on a task free.
func (w *Worker) dismiss(i int32, j *job) {
	if w.p.wide {
		for _, who := range w.thereOn(i) {
			w.release(who)
		}
		return
	}
	if w.freed(j.crew); w.rec != nil {
		for m := j.crew; m != 0; m &= m - 1 {
			w.rec.frees(w, lowest(m))
		}
	}
}

// begin starts the work on a task whose whole crew is there.
func (w *Worker) begin(i int32, j *job, t *task) {
	j.phase, j.start, j.since = working, w.now, w.now
	w.changed = w.now
	if w.rec != nil {
		w.rec.works(w, i)
	}
	switch {
	case t.worked:
		left, rate := sim.WorkOf(w.luck.Amount[i], t.unit), int64(0)
		if left.None() {
			j.left, j.rate = left, 0
			w.endsAt(i, j, w.now)
			break
		}
		if t.rates != nil {
			rate = t.rates[w.row*t.stride+j.there]
		} else {
			rate = w.rateOf(j, t)
		}
		j.left, j.rate = left, rate
		if takes := left.Takes(rate); takes < beyond {
			w.endsAt(i, j, w.now+takes)
		}
		if t.joinable && j.there < t.high {
			w.openJoin(t)
		}
	case t.kind == uint8(sim.Takes):
		j.left, j.rate = sim.Labour{}, 0
		w.endsAt(i, j, w.now+w.luck.Amount[i])
	case t.kind == uint8(sim.Melt):
		w.todo |= toHeat
		j.left, j.rate = sim.Labour{}, 0
		switch {
		case t.fixed == sim.Never:
		case t.slowed == nil:
			w.endsAt(i, j, w.now+t.fixed)
		default:
			j.left = sim.WorkOf(t.fixed, sim.WorkUnit)
			j.rate = sim.MeltRate(w.slowedNow(t))
			w.reschedule(i, w.meltedAt(j, t))
		}
	default:
		j.left, j.rate = sim.Labour{}, 0
		w.beginWarmUp(i)
	}
	if t.heeded {
		w.follow(t.afterFrom)
		if t.ties != nil {
			w.startTies(i)
		}
	}
}

// meltedAt returns when a melt that may be slowed ends at its rate.
func (w *Worker) meltedAt(j *job, t *task) sim.Time {
	if takes := j.left.Takes(j.rate); takes < beyond-t.handling {
		return w.now + takes + t.handling
	}
	return sim.Never
}

// slowedNow returns what slows a task now, in thousandths.
func (w *Worker) slowedNow(t *task) int64 {
	if t.stride > 0 {
		return t.slowed[w.row]
	}
	return t.slowed[0]
}

// follow counts down what comes after, at once or when the lag runs out.
func (w *Worker) follow(after []follower) {
	for k := range after {
		if f := &after[k]; f.lag == 0 {
			w.oneLess(f.task)
		} else {
			w.push(keyOf(w.now+f.lag, lagged, f.task))
		}
	}
}

// setRate works out anew how fast a task gets on and when it will be done.
func (w *Worker) setRate(i int32) {
	j, t := &w.jobs[i], &w.tasks[i]
	j.stale = false
	if j.phase != working || j.left.None() {
		return
	}
	if dt := w.now - j.since; dt > 0 && j.rate > 0 {
		j.left = j.left.After(j.rate, dt)
	}
	j.since = w.now
	if !t.worked {
		if !j.left.None() {
			j.rate = sim.MeltRate(w.slowedNow(t))
			w.reschedule(i, w.meltedAt(j, t))
		}
		return
	}
	w.stirred = true
	j.rate = w.rateOf(j, t)
	w.reschedule(i, w.dueAt(j))
}

// dueAt returns when the work on a task will be done at its rate.
func (w *Worker) dueAt(j *job) sim.Time {
	if takes := j.left.Takes(j.rate); takes < beyond {
		return w.now + takes
	}
	return sim.Never
}

// rateOf returns what the people there on a task get done in a millisecond.
func (w *Worker) rateOf(j *job, t *task) int64 {
	n := j.there
	if t.rates != nil {
		return t.rates[w.row*t.stride+n]
	}
	if n == 0 {
		return 0
	}
	return sim.RateOf(t.effective[n], int(n), j.paces, w.slowedNow(t))
}

// finish moves a task whose phase is over on: from work to what mishaps add,
// and to the end.
func (w *Worker) finish(i int32) {
	j, t := &w.jobs[i], &w.tasks[i]
	j.due = sim.Never // its event has been taken
	w.changed = w.now
	if j.phase == working {
		j.worked = w.now
		if t.joinable {
			w.closeJoin(t)
		} else if t.kind == uint8(sim.Warm) {
			w.warming--
			w.todo |= toHeat
		}
		adds := w.luck.Mishap[i]
		if w.luck.MishapThen != nil {
			adds = w.mishapOf(i)
		}
		if adds > 0 {
			j.phase = mishap
			w.endsAt(i, j, w.now+adds)
			return
		}
	}
	j.phase, j.end = ended, w.now
	w.left--
	w.look |= t.shares
	w.tell(t.news)
	w.stirred = true
	if w.singly {
		w.dismiss(i, j)
	} else {
		w.freed(j.crew)
	}
	if t.plain {
		w.tools += t.back
	} else {
		w.clearAway(i)
	}
	w.follow(t.afterEnd)
	if t.ties != nil {
		w.endTies(i)
	}
}

// clearAway is what the end of a task does besides letting its people go.
func (w *Worker) clearAway(i int32) {
	t := &w.tasks[i]
	w.giveBack(t, w.jobs[i].each)
	if t.kind == uint8(sim.Melt) {
		w.takeOff(i)
	}
	if len(t.puts) > 0 {
		w.puts = append(w.puts, i)
		w.todo |= toPutOut
	}
	for _, b := range t.brings {
		w.burns[b.stove] += b.count
		w.addStoves(int(b.stove), int(w.burns[b.stove]), w.p.d.Stoves[b.stove].Count)
	}
	if t.makes {
		w.make(i)
	}
}

// make applies what ended tasks make of shelters: of two that make the same,
// the one that ended later counts; at one instant, file order.
func (w *Worker) make(i int32) {
	k := len(w.made)
	w.made = append(w.made, i)
	for k > 0 && w.jobs[w.made[k-1]].end == w.now && w.made[k-1] > i {
		w.made[k] = w.made[k-1]
		k--
	}
	w.made[k] = i
	copy(w.shelters, w.p.d.Shelters)
	for _, m := range w.made {
		for _, change := range w.tasks[m].Makes {
			w.shelters[change.Shelter] = heat.Apply(w.shelters[change.Shelter], change)
		}
	}
	w.todo |= toHeat
}
