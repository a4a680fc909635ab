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
	w.copyLuck(l)
	n := len(w.crew)
	w.rec = &recorder{
		doing: make([]sim.Stretch, n), begun: make([]bool, n),
		stretches: make([][]sim.Stretch, n), people: make([][]int, len(w.jobs)),
	}
	defer func() { w.rec = nil }()
	w.reset()
	w.until(sim.Horizon)
	if w.clash != nil {
		return nil, w.clash
	}
	tl := w.timeline(l)
	if w.left > 0 {
		if err := w.couldFinish(); err != nil {
			return nil, err
		}
	}
	return tl, nil
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
func (w *Worker) timeline(l *sim.Luck) *sim.Timeline {
	tl := &sim.Timeline{Drill: w.p.d, Luck: l, End: w.changed}
	for i := range w.jobs {
		j := &w.jobs[i]
		t := sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Detail: int(j.detail), Unit: int(j.unit)}
		if j.phase >= called {
			t.Called = j.called
		}
		if j.phase >= working {
			t.Start = w.start[i]
		}
		if j.phase >= mishap {
			t.Worked = j.worked
		}
		if j.phase == ended {
			t.End = w.end[i]
		}
		for _, who := range w.rec.people[i] {
			t.People = append(t.People, int(who))
		}
		slices.Sort(t.People)
		t.People = slices.Compact(t.People) // somebody pulled may have come back
		tl.Tasks = append(tl.Tasks, t)
	}
	tl.People = make([][]sim.Stretch, len(w.crew))
	for who := range w.crew {
		var all []sim.Stretch
		if w.rec.begun[who] {
			last := w.rec.doing[who]
			last.To = tl.End
			for _, s := range append(slices.Clone(w.rec.stretches[who]), last) {
				s.To = min(s.To, tl.End)
				if s.To > s.From || s.What == sim.Working && s.To == s.From {
					all = append(all, s)
				}
			}
		}
		tl.People[who] = all
	}
	tl.SetMilestones()
	return tl
}
