package cold

import (
	"slices"

	"warmby/sim"
)

// frame is what in a timeline decides what people wear and what is around them.
type frame struct {
	tl       *sim.Timeline
	cases    [][]sim.Step // by weather case, as they come up
	steps    []sim.Step   // of this one
	layersOn sim.Time     // from when people wear what they wear at the halt
	heated   []warmth     // of each shelter
	drill    *sim.Drill   // that in is of
	in       []int        // by spot: the shelter it is in, -1 for none
}

// warmth is from when a shelter counts as heated, and by which task.
type warmth struct {
	from sim.Time
	task int
}

// read takes in a timeline, in the memory of the one before, which must be of
// the same drill.
func (f *frame) read(tl *sim.Timeline) {
	d := tl.Drill
	w := tl.Luck.Weather
	for len(f.cases) <= w {
		f.cases = append(f.cases, d.Steps(len(f.cases)))
	}
	f.steps = f.cases[w]
	if f.drill != d {
		f.drill, f.in = d, f.in[:0]
		for i := range d.Spots {
			f.in = append(f.in, d.Spots[i].In)
		}
	}
	f.tl, f.layersOn = tl, sim.Never
	f.heated = slices.Grow(f.heated[:0], len(d.Shelters))[:len(d.Shelters)]
	for i := range f.heated {
		f.heated[i] = warmth{from: sim.Never}
	}
	for i := range d.Tasks {
		t, end := &d.Tasks[i], tl.Tasks[i].End
		if t.LayersOn {
			f.layersOn = min(f.layersOn, end)
		}
		if t.Kind == sim.Warm && end < f.heated[t.Warm.Shelter].from {
			f.heated[t.Warm.Shelter] = warmth{end, i}
		}
	}
}

// part is a piece of a stretch over which nothing changes. It also says how far
// one has come along a person's time: parts are asked for as they follow each
// other.
type part struct {
	to   sim.Time
	step int  // of the weather
	warm int  // the warm-up that heats the shelter they are in, -1 outdoors
	halt bool // whether people wear what they wear at the halt
	dry  bool // whether they have been inside a heated shelter
}

// next makes p the part of a stretch that begins at a moment.
func (f *frame) next(p *part, s *sim.Stretch, from sim.Time) {
	for p.step+1 < len(f.steps) && f.steps[p.step+1].At <= from {
		p.step++
	}
	to := s.To
	if p.step+1 < len(f.steps) {
		to = min(to, f.steps[p.step+1].At)
	}
	if f.layersOn > from {
		to = min(to, f.layersOn)
	}
	p.halt, p.warm = s.What == sim.Watching || from >= f.layersOn, -1
	if len(f.heated) > 0 && s.What != sim.Walking {
		if shelter := f.in[s.Spot]; shelter >= 0 {
			if h := &f.heated[shelter]; h.from > from {
				to = min(to, h.from)
			} else {
				p.warm, p.dry = h.task, true
			}
		}
	}
	p.to = to
}

// ambient returns the air around a person in a part of a stretch. Nothing
// shelters who walks.
func (f *frame) ambient(s *sim.Stretch, p *part) Ambient {
	if p.warm >= 0 {
		return indoors(f.steps[p.step], f.tl.Drill.Tasks[p.warm].Warm.To)
	}
	spot := sim.Spot{}
	if s.What != sim.Walking {
		spot = f.tl.Drill.Spots[s.Spot]
	}
	return Outdoors(f.steps[p.step], spot)
}
