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
	doings []doing      // what people may be about, see below
	dress  []int        // tasks by whose ends layers or dry clothes are on
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
	wears  wears
	row    int // of a meter: where in its rows the rate begins
}

// wears says what people wear for something, by what they wore before and by whether
// layers are on: what is worn at the halt where any of the three is so, else what is
// worn on the march. All are 0 or 1, for no processor could foresee branches.
type wears struct {
	before int // as before
	layers int // once layers are on
	halt   int // always
}

var (
	asBefore = wears{before: 1}
	asLayers = wears{layers: 1}
	forMarch = wears{}
	forHalt  = wears{halt: 1}
)

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
	does := func(rate float64, gentle bool, as wears) {
		f.doings = append(f.doings, doing{rate: float64(factor * rate), gentle: gentle, wears: as})
	}
	does(Standing, true, asLayers)
	does(Rate(sim.Moderate), false, asBefore)
	free := IdleEffort(d)
	does(Rate(free), free <= sim.Low, asLayers)
	does(Rate(sim.Resting), true, asLayers)
	for i := range d.Tasks {
		e := TaskEffort(&d.Tasks[i])
		does(Rate(e), e <= sim.Low, wornAt(&d.Tasks[i], e))
		if d.Tasks[i].LayersOn || d.Tasks[i].DryClothes {
			f.dress = append(f.dress, i)
		}
	}
	for i := range d.Lookouts {
		e := d.Lookouts[i].Effort
		does(LookoutRate(e), e <= sim.Low, forHalt)
	}
	f.layersOn, f.dry = make([]sim.Time, len(d.People)), make([]sim.Time, len(d.People))
	f.degree = make([]int, len(d.Shelters))
	for i := range d.Spots {
		f.spots = append(f.spots, d.Spots[i].In)
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
	for _, i := range f.dress {
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

// wornAt says which clothing is worn on a task: what it says or, where it says
// nothing, for an effort up to low as by those who wait, above it that of the march.
func wornAt(t *sim.Task, e sim.Effort) wears {
	switch {
	case t.Worn == sim.WornHalt:
		return forHalt
	case t.Worn != sim.WornUnset || e > sim.Low:
		return forMarch
	}
	return asLayers
}

// part is a piece of a stretch over which nothing changes. It also says how far
// one has come along a person's time: parts are asked for as they follow each
// other.
type part struct {
	to      sim.Time
	step    int    // of the weather
	does    *doing // what the person is about
	spot    int    // outdoors: where; -1 on the way
	shelter int    // -1 outdoors
	degrees int    // inside: the air counts as so many degrees C
	gone    bool   // gone in, or on the way there or back: not in the timeline
	halt    int    // 1 when the person wears what is worn at the halt, else 0
	damp    int    // 1 when damp takes its share of that, else 0

	// What the stretch has by the timeline.
	until   sim.Time
	about   *doing
	stands  int  // where the person is, -1 on the way
	under   int  // the shelter in which that lies, -1 outdoors
	mayGoIn bool // whether the person may have gone in

	who       int
	ends      sim.Time // of the account
	turn      sim.Time // until when weather and clothes stay as they are, as long as the person stays outdoors
	layers    int      // 1 when layers are on, else 0
	visit     int      // how far along visits
	warmSince sim.Time // since when inside at 10 C or more; Never when not
}

// start returns what comes before the parts of a person's time.
func (f *frame) start(who int) part {
	clear(f.degree)
	p := part{who: who, ends: f.ends(who), warmSince: sim.Never}
	if f.drill.People[who].Damp > 0 {
		p.damp = 1
	}
	return p
}

// begin begins the next stretch of a person's time.
func (f *frame) begin(p *part, s *sim.Stretch) {
	p.until, p.stands, p.under, p.mayGoIn = min(s.To, p.ends), s.Spot, f.spots[s.Spot], false
	switch s.What {
	case sim.Walking:
		p.about, p.stands, p.under = &f.doings[walking], -1, -1
	case sim.Working:
		p.about = &f.doings[workingAt+s.Task]
	case sim.Watching:
		p.about = &f.doings[workingAt+len(f.drill.Tasks)+s.Lookout]
	case sim.Ready:
		p.about = &f.doings[waiting]
	default:
		p.about, p.mayGoIn = &f.doings[idle], p.visit < len(f.visits[p.who])
	}
}

// next makes p the part that begins at a moment, which must be before the end of the
// stretch.
func (f *frame) next(p *part, from sim.Time) {
	if from >= p.turn {
		f.change(p, from)
	}
	p.to = min(p.until, p.turn)
	p.does, p.spot, p.shelter, p.gone = p.about, p.stands, -1, false
	under := p.under
	if p.mayGoIn {
		under = f.visiting(p, from)
	}
	if under < 0 || f.rooms[under].Lit > from {
		f.stayOut(p, under)
	} else {
		f.stayIn(p, under, from)
	}
	w := &p.does.wears
	p.halt = p.halt&w.before | p.layers&w.layers | w.halt
}

// change goes on to the weather of a moment, and to the clothes worn from then on.
func (f *frame) change(p *part, from sim.Time) {
	for f.until[p.step] <= from {
		p.step++
	}
	p.turn, p.layers = f.until[p.step], 1
	if on := f.layersOn[p.who]; from < on {
		p.turn, p.layers = min(p.turn, on), 0
	}
	if dry := f.dry[p.who]; from >= dry {
		p.damp = 0
	} else if p.damp == 1 {
		p.turn = min(p.turn, dry)
	}
}

// visiting returns the shelter in which somebody free is: the one at his place, or
// the one into which he has gone; -1 for none. It says whether he is on the way there
// or back.
func (f *frame) visiting(p *part, from sim.Time) int {
	visits := f.visits[p.who]
	for p.visit < len(visits) && visits[p.visit].Back <= from {
		p.visit++
	}
	if p.visit == len(visits) {
		return p.under
	}
	switch v := &visits[p.visit]; {
	case from < v.Leave:
		p.to = min(p.to, v.Leave)
		return p.under
	case from < v.In || from >= v.Out:
		p.to = min(p.to, v.Back)
		if from < v.In {
			p.to = min(p.to, v.In)
		}
		p.gone, p.does, p.spot = true, &f.doings[walking], -1
		return -1
	default:
		p.gone, p.spot, p.to = true, v.Spot, min(p.to, v.Out)
		return v.Shelter
	}
}

// stayOut says that somebody is outdoors, or in a shelter that is not lit yet.
func (f *frame) stayOut(p *part, shelter int) {
	p.warmSince = sim.Never
	if shelter >= 0 {
		p.to = min(p.to, f.rooms[shelter].Lit)
	}
}

// stayIn says how warm it is in a shelter, and whether damp has left the clothing of
// somebody inside.
func (f *frame) stayIn(p *part, shelter int, from sim.Time) {
	degrees, k := f.rooms[shelter].Degrees, f.degree[shelter]
	for k+1 < len(degrees) && degrees[k+1].From <= from {
		k++
	}
	if k+1 < len(degrees) {
		p.to = min(p.to, degrees[k+1].From)
	}
	f.degree[shelter], p.shelter, p.degrees = k, shelter, degrees[k].C
	if p.does == &f.doings[idle] {
		p.does = &f.doings[resting]
	}
	if p.degrees < 10 {
		p.warmSince = sim.Never
	} else if p.damp == 1 {
		f.dryOut(p, from)
	}
}

// dryOut says whether damp has left the clothing of somebody who is in the warm.
func (f *frame) dryOut(p *part, from sim.Time) {
	if p.warmSince == sim.Never {
		p.warmSince = from
	}
	if at := p.warmSince + dryAfter; from < at {
		p.to = min(p.to, at)
		return
	}
	p.damp = 0
	f.change(p, from) // dry clothes change nothing any more
	f.next(p, from)
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
func (f *frame) clothes(p *part) float64 {
	person := &f.drill.People[p.who]
	clo := person.March
	if p.halt == 1 {
		clo = person.Halt
	}
	if p.damp == 1 {
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
