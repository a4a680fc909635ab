package fast

import (
	"slices"

	"warmby/sim"
)

// recorder keeps what each person did, for a timeline.
type recorder struct {
	stretches [][]sim.Stretch // by person; the last is under way, and its To not known yet
	people    []uint64        // by task: all who were there, as bits
	words     int             // for each task
}

// Timeline plays the drill with given draws and returns its timeline.
func (w *Worker) Timeline(l *sim.Luck) *sim.Timeline {
	tl := &sim.Timeline{}
	w.Replay(l, tl)
	tl.Luck = l
	for who := range tl.People {
		if len(tl.People[who]) == 0 {
			tl.People[who] = nil
		}
	}
	return tl
}

// Record plays one run of a seed, as [Worker.Run] does, and fills in its
// timeline, whose memory it uses again: nothing is allocated once all of it is
// large enough. The timeline's luck is the worker's, and changes with its next
// run.
func (w *Worker) Record(seed uint64, run int, tl *sim.Timeline) {
	w.p.sampler.Run(seed, run, &w.luck)
	w.record(tl)
}

// Replay plays the drill with given draws and fills in the timeline, as [Worker.Record] does.
func (w *Worker) Replay(l *sim.Luck, tl *sim.Timeline) {
	w.copyLuck(l)
	w.record(tl)
}

func (w *Worker) record(tl *sim.Timeline) {
	if w.recorder == nil {
		words := (len(w.crew) + 63) / 64
		w.recorder = &recorder{people: make([]uint64, words*len(w.jobs)), words: words}
	}
	w.rec = w.recorder
	defer func() { w.rec = nil }()
	w.rec.stretches = sized(tl.People, len(w.crew)) // in the timeline's own memory
	w.rec.clear()
	w.reset()
	w.until(sim.Horizon)
	w.timeline(tl)
	w.rec = nil
	if tl.Stops = nil; w.left > 0 {
		tl.Stops = w.stops()
	}
}

func (r *recorder) clear() {
	for who := range r.stretches {
		r.stretches[who] = r.stretches[who][:0]
	}
	clear(r.people)
}

// gather tells of a crew that a task calls: each walks to its spot, and waits
// there for the last, who walks longest.
func (r *recorder) gather(w *Worker, i int32, longest sim.Time) {
	for _, who := range w.thereOn(i) {
		at := w.now
		if walk := w.crew[who].there - at; walk > 0 {
			r.walks(w, who)
			if at += walk; walk == longest {
				continue // the work begins then
			}
		}
		r.atTask(w, who, i, sim.Ready, at)
	}
}

// works tells of the crew of a task whose work begins.
func (r *recorder) works(w *Worker, i int32) {
	if !w.p.wide {
		r.people[i] |= w.jobs[i].crew
		for m := w.jobs[i].crew; m != 0; m &= m - 1 {
			r.atTask(w, lowest(m), i, sim.Working, w.now)
		}
		return
	}
	for _, who := range w.thereOn(i) {
		r.joins(w, who, i)
	}
}

// joins tells of a person whose work on a task begins.
func (r *recorder) joins(w *Worker, who, i int32) {
	r.people[int(i)*r.words+int(who>>6)] |= 1 << (who & 63)
	r.atTask(w, who, i, sim.Working, w.now)
}

// atTask tells of a person who works, or waits, at a task.
func (r *recorder) atTask(w *Worker, who, i int32, what sim.Activity, at sim.Time) {
	r.begin(who, what, at, i, -1, 0, w.crew[who].spot)
}

// frees tells of a person who has nothing to do.
func (r *recorder) frees(w *Worker, who int32) {
	r.begin(who, sim.Free, w.now, -1, -1, 0, w.crew[who].spot)
}

// watches tells of a person who stands at a lookout.
func (r *recorder) watches(w *Worker, who int32) {
	m := &w.crew[who]
	r.begin(who, sim.Watching, w.now, -1, m.lookout, m.place, m.spot)
}

// walks tells of a person who has been sent to a task or a lookout.
func (r *recorder) walks(w *Worker, who int32) {
	m, before := &w.crew[who], r.stretches[who]
	origin, place := before[len(before)-1].Spot, int32(0)
	if m.lookout >= 0 {
		place = m.place
	}
	r.begin(who, sim.Walking, w.now, m.task, m.lookout, place, m.spot).Origin = origin
}

// begin ends what a person is about at a moment and begins something else, which it
// fills in where it lies: it is large. What has had no length and is not work is not
// kept.
func (r *recorder) begin(who int32, what sim.Activity, at sim.Time, task, lookout, place, spot int32) *sim.Stretch {
	all := &r.stretches[who]
	n := len(*all)
	if n > 0 {
		last := &(*all)[n-1]
		if last.To = at; last.From == at && last.What != sim.Working {
			n-- // it is written over
		}
	}
	if n == len(*all) {
		if n == cap(*all) {
			*all = slices.Grow(*all, 1)
		}
		*all = (*all)[:n+1]
	}
	s := &(*all)[n]
	s.What, s.From, s.To, s.Spot, s.Origin = what, at, 0, int(spot), int(spot)
	s.Task, s.Lookout, s.Place = int(task), int(lookout), int(place)
	return s
}

// allThere appends all who were there on a task, in roster order.
func (r *recorder) allThere(i int, people []int) []int {
	for k, m := range r.people[i*r.words : (i+1)*r.words] {
		for ; m != 0; m &= m - 1 {
			people = append(people, k<<6|int(lowest(m)))
		}
	}
	return people
}

// timeline puts together what happened so far.
func (w *Worker) timeline(tl *sim.Timeline) {
	tl.Drill, tl.Luck, tl.End = w.p.d, &w.luck, w.changed
	tl.Tasks, tl.People = sized(tl.Tasks, len(w.jobs)), w.rec.stretches
	for i := range w.jobs {
		j, t := &w.jobs[i], &tl.Tasks[i]
		t.Start, t.End, t.Worked = j.start, j.end, sim.Never
		if j.phase >= called {
			t.Called, t.Group, t.Unit = j.called, int(j.group), int(j.unit)
		} else {
			t.Called, t.Group, t.Unit = sim.Never, -1, -1
		}
		if j.phase >= mishap {
			t.Worked = j.worked
		}
		t.People = w.rec.allThere(i, t.People[:0])
	}
	for who, all := range w.rec.stretches {
		if n := len(all); n > 0 {
			all[n-1].To = tl.End
		}
		tl.People[who] = before(all, tl.End)
	}
	tl.SetMilestones()
}

// before cuts what comes after the end off some stretches.
func before(all []sim.Stretch, end sim.Time) []sim.Stretch {
	for n := len(all); n > 0; n-- {
		last := &all[n-1]
		last.To = min(last.To, end)
		if last.To > last.From || last.What == sim.Working && last.To == last.From {
			return all[:n]
		}
	}
	return all[:0]
}
