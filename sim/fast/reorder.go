package fast

import (
	"maps"

	"warmby/sim"
)

// Trial is a worker that can be given one order after another of the drill that
// its program was compiled from, for much less than compiling each.
type Trial struct {
	Worker
	base  *Program
	own   Program    // the base, with what depends on the order changed
	crews []sim.Crew // by task: the crew that own has it with
	cut   map[cutKey]task
}

// cutKey names a task with a crew narrowed.
type cutKey struct {
	task int32
	crew sim.Crew
}

// Trial returns a new trial, with the order that the program was compiled with.
func (p *Program) Trial() *Trial {
	t := &Trial{base: p, own: *p, cut: map[cutKey]task{}}
	t.own.tasks = append([]task(nil), p.tasks...)
	for i := range t.own.tasks {
		t.crews = append(t.crews, p.tasks[i].Crew)
		t.own.tasks[i].at = nil
	}
	t.own.people = append([]member(nil), p.people...)
	t.own.lookouts = append([]lookout(nil), p.lookouts...)
	t.own.asks = maps.Clone(p.asks)
	t.own.does, t.own.anywhere, t.own.told = nil, nil, nil
	t.own.segments, t.own.plain = nil, nil
	t.own.groups, t.own.words, t.own.calls = nil, nil, nil
	t.own.compileGroups()
	t.own.compilePlain()
	t.Worker = *p.Worker()
	t.Worker.p, t.Worker.tasks = &t.own, t.own.tasks
	return t
}

// Reorder gives the trial another order: d must be the drill that the program
// was compiled from, under an order of which only groups, their rules and
// crews differ from its own, the crews within those it was compiled with. From
// then on the trial plays as a worker of a program compiled from d does. No
// check is made whether d can be played at all.
func (t *Trial) Reorder(d *sim.Drill) {
	t.own.d = d
	for i := range t.own.tasks {
		k := &t.own.tasks[i]
		if at, crew := k.at, d.Tasks[i].Crew; t.crews[i] != crew {
			*k = *t.narrowed(int32(i), crew)
			k.at, t.crews[i] = at, crew
		}
		k.Task, k.at = &d.Tasks[i], k.at[:0]
	}
	for i := range t.own.people {
		t.own.people[i].group = -1
	}
	for i := range d.Groups {
		for _, person := range d.Groups[i].People {
			t.own.people[person].group = int32(i)
		}
	}
	t.own.compileGroups()
	t.own.compilePlain()
	t.resize()
}

// narrowed returns a task as it is compiled with a crew.
func (t *Trial) narrowed(i int32, crew sim.Crew) *task {
	base := &t.base.tasks[i]
	if base.Crew == crew {
		return base
	}
	k, there := t.cut[cutKey{i, crew}]
	if !there {
		k = *base
		narrow := *base.Task
		narrow.Crew = crew
		low, high := narrow.CrewBounds()
		k.low, k.high, k.nobody = int32(low), int32(high), crew.Max == 0
		k.Task, k.able = &narrow, 0
		t.own.compileAble(&k)
		if k.worked {
			k.rates, k.effective, k.stride = nil, nil, 0
			t.own.compileRates(&k)
		}
		if k.high > base.high { // not done by work, so called at its smallest, which has grown
			k.crew = int32(t.own.slots)
			t.own.slots += int(k.high)
			t.slots = make([]int32, t.own.slots)
		}
		t.own.compileAsks(&k)
		t.cut[cutKey{i, crew}] = k
	}
	return &k
}

// resize gives what a worker keeps of each group its room.
func (t *Trial) resize() {
	w, n := &t.Worker, len(t.own.groups)
	w.segments = sized(w.segments, len(t.own.words))
	w.pools = sized(w.pools, n)
	if w.p.wide {
		w.crowds = w.p.roomForCrowds(w.crowds)
	}
}
