package cold

import (
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/heat"
	"warmby/sim/inside"
)

// frame is what in a timeline decides what people do, what they wear and what is
// around them. The account and the meter walk along it in the same steps.
type frame struct {
	drill  *sim.Drill
	tl     *sim.Timeline
	cases  [][]sim.Step // by weather case, as they come up
	steps  []sim.Step   // of this one
	until  []sim.Time   // and when each of them is over, the last never
	spots  []int        // by spot: the shelter in which it lies, -1 outdoors
	damp   []bool       // by person: whether damp takes its share of what is worn
	doings []doing      // what people may be about, see below
	heat   *heat.Rooms
	goers  *inside.Reader

	rooms    []heat.Room      // by shelter
	visits   [][]inside.Visit // by person
	layersOn []sim.Time       // by person: from when they wear what they wear at the halt
	dry      []sim.Time       // by person: when dry clothes are on
	degree   []int            // by shelter: how far along its degrees one is with a person
}

// doing is one of the things that people may be about.
type doing struct {
	rate   float64 // W/m2
	gentle bool    // an effort up to low
	worn   sim.Worn
}

// What people do, before tasks and lookouts.
const (
	waiting   = iota // for the rest of a crew
	walking          // anywhere
	idle             // free outdoors
	resting          // free inside
	workingAt        // and after it, by task
)

// dryAfter is how long people must be inside at 10 C or more without a break for
// damp to leave their clothing. An invented figure.
const dryAfter = 30 * sim.Minute

// newFrame returns the frame of a drill, for metabolic rates times a factor.
func newFrame(d *sim.Drill, factor float64) frame {
	f := frame{drill: d, heat: heat.NewRooms(d), goers: inside.New(d)}
	does := func(rate float64, gentle bool, worn sim.Worn) {
		f.doings = append(f.doings, doing{float64(factor * rate), gentle, worn})
	}
	does(Standing, true, sim.WornUnset)
	does(Rate(sim.Moderate), false, sim.WornUnset)
	free := IdleEffort(d)
	does(Rate(free), free <= sim.Low, sim.WornUnset)
	does(Rate(sim.Resting), true, sim.WornUnset)
	for i := range d.Tasks {
		e := TaskEffort(&d.Tasks[i])
		does(Rate(e), e <= sim.Low, d.Tasks[i].Worn)
	}
	for i := range d.Lookouts {
		e := d.Lookouts[i].Effort
		does(LookoutRate(e), e <= sim.Low, sim.WornHalt)
	}
	f.layersOn, f.dry = make([]sim.Time, len(d.People)), make([]sim.Time, len(d.People))
	f.degree = make([]int, len(d.Shelters))
	for i := range d.Spots {
		f.spots = append(f.spots, d.Spots[i].In)
	}
	for i := range d.People {
		f.damp = append(f.damp, d.People[i].Damp > 0)
	}
	return f
}

// read takes in a timeline, in the memory of the one before.
func (f *frame) read(tl *sim.Timeline) {
	w := tl.Luck.Weather
	for len(f.cases) <= w {
		f.cases = append(f.cases, f.drill.Steps(len(f.cases)))
	}
	f.tl, f.steps, f.until = tl, f.cases[w], f.until[:0]
	for i := 1; i < len(f.steps); i++ {
		f.until = append(f.until, f.steps[i].At)
	}
	f.until = append(f.until, sim.Never)
	f.rooms, f.visits = f.heat.Read(tl), f.goers.Read(tl)
	for who := range f.layersOn {
		f.layersOn[who], f.dry[who] = sim.Never, sim.Never
	}
	for i := range f.drill.Tasks {
		t, end := &f.drill.Tasks[i], tl.Tasks[i].End
		if t.LayersOn {
			f.putOn(t, end)
		}
		if t.DryClothes {
			for _, who := range tl.Tasks[i].People {
				f.dry[who] = min(f.dry[who], end)
			}
		}
	}
}

// putOn enters the end of a task with which layers are on: everybody's, or those
// of the one who does it for himself.
func (f *frame) putOn(t *sim.Task, end sim.Time) {
	if t.Each != "" {
		f.layersOn[t.Who[0]] = min(f.layersOn[t.Who[0]], end)
		return
	}
	for who := range f.layersOn {
		f.layersOn[who] = min(f.layersOn[who], end)
	}
}

// part is a piece of a stretch over which nothing changes. It also says how far
// one has come along a person's time: parts are asked for as they follow each
// other.
type part struct {
	to      sim.Time
	step    int  // of the weather
	doing   int  // index in doings
	spot    int  // outdoors: where; -1 on the way
	shelter int  // -1 outdoors
	degrees int  // inside: the air counts as so many degrees C
	gone    bool // gone in, or on the way there or back: not in the timeline
	halt    bool // whether people wear what they wear at the halt
	dry     bool // whether damp has left their clothing

	visit     int      // how far along visits
	warmSince sim.Time // since when inside at 10 C or more; Never when not
}

// start returns what comes before the parts of a person's time.
func (f *frame) start() part {
	clear(f.degree)
	return part{shelter: -1, warmSince: sim.Never}
}

// next makes p the part of a person's stretch that begins at a moment.
func (f *frame) next(p *part, who int, s *sim.Stretch, from sim.Time) {
	for f.until[p.step] <= from {
		p.step++
	}
	p.to = min(s.To, f.until[p.step])
	f.place(p, who, s, from)
	f.wear(p, who, s, from)
	if f.damp[who] && !p.dry {
		f.dryOut(p, who, from)
	}
}

// place says what somebody is about, and where.
func (f *frame) place(p *part, who int, s *sim.Stretch, from sim.Time) {
	in := -1
	p.gone, p.spot = false, s.Spot
	switch s.What {
	case sim.Walking:
		p.doing, p.spot = walking, -1
	case sim.Working:
		p.doing = workingAt + s.Task
	case sim.Watching:
		p.doing = workingAt + len(f.drill.Tasks) + s.Lookout
	case sim.Ready:
		p.doing = waiting
	default:
		p.doing = idle
		in = f.visiting(p, who, from)
	}
	if in < 0 && s.What != sim.Walking && !p.gone {
		in = f.spots[s.Spot]
	}
	if p.shelter = -1; in < 0 {
		return
	}
	if f.enter(p, in, from); p.shelter >= 0 && p.doing == idle {
		p.doing = resting
	}
}

// visiting returns the shelter into which somebody free has gone, -1 for none,
// and says whether he is on the way there or back.
func (f *frame) visiting(p *part, who int, from sim.Time) int {
	visits := f.visits[who]
	for p.visit < len(visits) && visits[p.visit].Back <= from {
		p.visit++
	}
	if p.visit == len(visits) {
		return -1
	}
	switch v := &visits[p.visit]; {
	case from < v.Leave:
		p.to = min(p.to, v.Leave)
		return -1
	case from < v.In || from >= v.Out:
		p.to = min(p.to, v.Back)
		if from < v.In {
			p.to = min(p.to, v.In)
		}
		p.gone, p.doing, p.spot = true, walking, -1
		return -1
	default:
		p.gone, p.spot, p.to = true, v.Spot, min(p.to, v.Out)
		return v.Shelter
	}
}

// enter says whether somebody at a place in a shelter is inside, and how warm it is
// there.
func (f *frame) enter(p *part, shelter int, from sim.Time) {
	room := &f.rooms[shelter]
	if room.Lit > from {
		p.to = min(p.to, room.Lit)
		return
	}
	p.shelter = shelter
	degrees, k := room.Degrees, f.degree[shelter]+1
	for k < len(degrees) && degrees[k].From <= from {
		k++
	}
	if k < len(degrees) {
		p.to = min(p.to, degrees[k].From)
	}
	p.degrees = degrees[k-1].C
	f.degree[shelter] = k - 1
}

// wear says which clothing is worn: on lookouts that of the halt, on a task what
// it says. Otherwise, once layers are on, that of the halt for efforts up to low
// and for who is free or waits, before and above low that of the march. Walking
// keeps on what was worn.
func (f *frame) wear(p *part, who int, s *sim.Stretch, from sim.Time) {
	on := from >= f.layersOn[who]
	if !on {
		p.to = min(p.to, f.layersOn[who])
	}
	does := &f.doings[p.doing]
	switch {
	case p.doing == walking:
	case does.worn != sim.WornUnset:
		p.halt = does.worn == sim.WornHalt
	case s.What == sim.Working:
		p.halt = on && does.gentle
	default:
		p.halt = on
	}
}

// dryOut says whether damp has left somebody's clothing.
func (f *frame) dryOut(p *part, who int, from sim.Time) {
	if p.shelter < 0 || p.degrees < 10 {
		p.warmSince = sim.Never
	} else if p.warmSince == sim.Never {
		p.warmSince = from
	}
	at := f.dry[who]
	if p.warmSince != sim.Never {
		at = min(at, p.warmSince+dryAfter)
	}
	if p.dry = from >= at; !p.dry {
		p.to = min(p.to, at)
	}
}

// ambient returns the air around a person in a part of a stretch. Nothing
// shelters who walks.
func (f *frame) ambient(p *part) Ambient {
	step := f.steps[p.step]
	if p.shelter >= 0 {
		return indoors(step, float64(p.degrees))
	}
	spot := sim.Spot{}
	if p.spot >= 0 {
		spot = f.drill.Spots[p.spot]
	}
	return Outdoors(step, spot)
}

// clothes returns the insulation in clo that somebody wears in a part.
func (f *frame) clothes(p *part, who int) float64 {
	person := &f.drill.People[who]
	clo := person.March
	if p.halt {
		clo = person.Halt
	}
	if !p.dry {
		clo = worn(clo, person.Damp)
	}
	return clo
}

// ends returns the end of a person's account: when he is hurt, or never.
func (f *frame) ends(who int) sim.Time {
	if h := f.drill.People[who].Hurt; h != nil {
		return *h
	}
	return sim.Never
}

// lowest returns the lowest whole degree that a shelter of a drill may come to.
func lowest(d *sim.Drill) int {
	least := 10.0
	for _, w := range d.Weather {
		for _, r := range w.Rows {
			least = min(least, r.Air)
		}
	}
	for i := range d.Shelters {
		if c := d.Shelters[i].AtStart; c != nil {
			least = min(least, *c)
		}
	}
	return int(math.Floor(least)) - 1
}

// number returns the index of a value in a list, to which it is added if it is
// not there.
func number(list *[]float64, v float64) int {
	if i := slices.Index(*list, v); i >= 0 {
		return i
	}
	*list = append(*list, v)
	return len(*list) - 1
}
