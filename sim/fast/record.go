package fast

import (
	"slices"

	"warmby/sim"
)

// recorder keeps what each person did, for a timeline.
type recorder struct {
	doing     []sim.Stretch // by person; under way
	begun     []bool
	stretches [][]sim.Stretch
	people    [][]int // by task: all who were there, by roster
}

// Timeline plays the drill with given draws and returns its timeline.
func (w *Worker) Timeline(l *sim.Luck) (*sim.Timeline, error) {
	tl := &sim.Timeline{}
	w.copyLuck(l)
	if err := w.record(tl); err != nil {
		return nil, err
	}
	tl.Luck = l
	return tl, nil
}

// Record plays one run of a seed, as [Worker.Run] does, and fills in its
// timeline, whose memory it uses again: nothing is allocated once all of it is
// large enough. The timeline's luck is the worker's, and changes with its next
// run.
func (w *Worker) Record(seed uint64, run int, tl *sim.Timeline) error {
	w.p.sampler.Run(seed, run, &w.luck)
	return w.record(tl)
}

func (w *Worker) record(tl *sim.Timeline) error {
	if w.recorder == nil {
		n := len(w.crew)
		w.recorder = &recorder{
			doing: make([]sim.Stretch, n), begun: make([]bool, n),
			stretches: make([][]sim.Stretch, n), people: make([][]int, len(w.jobs)),
		}
	}
	w.rec = w.recorder
	defer func() { w.rec = nil }()
	w.rec.clear()
	w.reset()
	w.until(sim.Horizon)
	if w.clash != nil {
		return w.clash
	}
	w.timeline(tl)
	if w.left > 0 {
		return w.couldFinish()
	}
	return nil
}

func (r *recorder) clear() {
	clear(r.begun)
	for who := range r.stretches {
		r.stretches[who] = r.stretches[who][:0]
	}
	for i := range r.people {
		r.people[i] = r.people[i][:0]
	}
}

// walk begins a walk to a spot on the errand that the person has.
func (r *recorder) walk(w *Worker, who, spot int32) {
	from := w.crew[who].spot
	r.begin(w, who, sim.Walking)
	r.doing[who].Origin, r.doing[who].Spot = int(from), int(spot)
}

// begin ends what a person is doing and begins something else.
func (r *recorder) begin(w *Worker, who int32, what sim.Activity) {
	if r.begun[who] {
		r.close(who, w.now)
	}
	m := &w.crew[who]
	s := sim.Stretch{What: what, From: w.now, Task: -1, Lookout: -1, Spot: int(m.spot), Origin: int(m.spot)}
	switch {
	case what == sim.Free || !m.here:
	case m.post >= 0:
		s.Lookout, s.Place = int(m.post), int(m.seat)
	default:
		s.Task = int(m.task)
	}
	r.doing[who], r.begun[who] = s, true
}

// close keeps the stretch under way, unless it has no length and is not work.
func (r *recorder) close(who int32, end sim.Time) {
	s := r.doing[who]
	s.To = end
	if s.To > s.From || s.What == sim.Working {
		r.stretches[who] = append(r.stretches[who], s)
	}
}

func (r *recorder) wasThere(i, who int32) {
	r.people[i] = append(r.people[i], int(who))
}

// timeline puts together what happened so far.
func (w *Worker) timeline(tl *sim.Timeline) {
	tl.Drill, tl.Luck, tl.End = w.p.d, &w.luck, w.changed
	tl.Tasks, tl.People = sized(tl.Tasks, len(w.jobs)), sized(tl.People, len(w.crew))
	for i := range w.jobs {
		j := &w.jobs[i]
		t := sim.TaskTimes{Called: sim.Never, Start: w.start[i], Worked: sim.Never, End: w.end[i], Detail: int(j.detail), Unit: int(j.unit)}
		if j.phase >= called {
			t.Called = j.called
		}
		if j.phase >= mishap {
			t.Worked = j.worked
		}
		t.People = append(tl.Tasks[i].People[:0], w.rec.people[i]...)
		slices.Sort(t.People)
		t.People = slices.Compact(t.People) // somebody pulled may have come back
		tl.Tasks[i] = t
	}
	for who := range w.crew {
		all := tl.People[who][:0]
		for _, s := range w.rec.stretches[who] {
			all = within(all, s, tl.End)
		}
		if w.rec.begun[who] {
			last := w.rec.doing[who]
			last.To = tl.End
			all = within(all, last, tl.End)
		}
		tl.People[who] = all
	}
	tl.SetMilestones()
}

// within adds what of a stretch comes before the end.
func within(all []sim.Stretch, s sim.Stretch, end sim.Time) []sim.Stretch {
	s.To = min(s.To, end)
	if s.To > s.From || s.What == sim.Working && s.To == s.From {
		all = append(all, s)
	}
	return all
}
