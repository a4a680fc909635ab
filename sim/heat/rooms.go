package heat

import (
	"math"
	"slices"

	"warmby/sim"
)

// Rooms reads the air of every shelter off timelines of one drill: what burns
// in it from when to when, and how warm it is. A Rooms belongs to one goroutine;
// from its second timeline on it takes no memory of its own.
type Rooms struct {
	d       *sim.Drill
	steps   [][]sim.Step // by weather case, as they come up
	makers  []int        // tasks that change a shelter
	putters []int        // tasks that put out stoves
	melts   []int
	warmers [][]int // by shelter
	rooms   []Room
	moments []sim.Time
	made    []int // makers that have ended, in the order of their ends
}

// Room is the air of a shelter along a timeline.
type Room struct {
	Shelter int
	// Lit is the moment from which the shelter is no longer as warm as the air
	// outside: the start of its first warm-up, or 0 where it is warm at the
	// start; Never if that does not come.
	Lit sim.Time
	// Warm is the moment from which people go in to get warm: the end of its
	// first warm-up, or 0 where it is warm at the start; Never if that does not
	// come.
	Warm sim.Time
	// Spans follow each other from 0 to the end of the timeline. In each of
	// them nothing changes. A room that is never lit has none.
	Spans []Span
	// Degrees says from when on the air counts as how many whole degrees C,
	// from Lit on: see [Degree].
	Degrees []Degree
}

// Span is a stretch of time over which the terms of a shelter stay the same.
type Span struct {
	From, To sim.Time
	Task     int  // the warm-up whose stove burns, -1 when none does
	Pot      bool // whether a melt runs on that stove
	Terms    Terms
	balance  Balance
}

// Degree says that the air of a shelter counts as C degrees from a moment on:
// the temperature rounded half up, at most 10, over which the formulas of cold
// take all air as 10 degrees.
type Degree struct {
	From sim.Time
	C    int
}

// mildest is the warmest air that is told apart in whole degrees.
const mildest = 10

// NewRooms returns a reader for the timelines of a drill.
func NewRooms(d *sim.Drill) *Rooms {
	r := &Rooms{d: d, rooms: make([]Room, len(d.Shelters)), warmers: make([][]int, len(d.Shelters))}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if len(t.Makes) > 0 {
			r.makers = append(r.makers, i)
		}
		if len(t.PutsOut) > 0 {
			r.putters = append(r.putters, i)
		}
		switch t.Kind {
		case sim.Melt:
			r.melts = append(r.melts, i)
		case sim.Warm:
			r.warmers[t.Warm.Shelter] = append(r.warmers[t.Warm.Shelter], i)
		}
	}
	return r
}

// RoomsOf returns the rooms of one timeline, by shelter.
func RoomsOf(tl *sim.Timeline) []Room { return NewRooms(tl.Drill).Read(tl) }

// Read returns the rooms of a timeline, by shelter. They hold until the next is
// read.
func (r *Rooms) Read(tl *sim.Timeline) []Room {
	w := tl.Luck.Weather
	for len(r.steps) <= w {
		r.steps = append(r.steps, r.d.Steps(len(r.steps)))
	}
	for s := range r.rooms {
		r.read(tl, s, r.steps[w])
	}
	return r.rooms
}

func (r *Rooms) read(tl *sim.Timeline, shelter int, steps []sim.Step) {
	room := &r.rooms[shelter]
	*room = Room{Shelter: shelter, Lit: sim.Never, Warm: sim.Never, Spans: room.Spans[:0], Degrees: room.Degrees[:0]}
	atStart := r.d.Shelters[shelter].AtStart
	if atStart != nil {
		room.Lit, room.Warm = 0, 0
	}
	for _, k := range r.warmers[shelter] {
		room.Lit, room.Warm = min(room.Lit, tl.Tasks[k].Start), min(room.Warm, tl.Tasks[k].End)
	}
	if room.Lit > tl.End {
		return
	}
	r.changes(tl, shelter, steps)
	for i, at := range r.moments {
		s := Span{From: at, To: tl.End}
		if i+1 < len(r.moments) {
			s.To = r.moments[i+1]
		}
		r.terms(tl, &s, shelter, steps)
		if i == 0 {
			s.balance = begin(atStart, s.Terms)
		} else {
			s.balance = room.Spans[i-1].balance
		}
		s.balance.Change(at, s.Terms)
		room.Spans = append(room.Spans, s)
		room.count(&s)
	}
}

// begin returns the balance of a shelter at the moment 0, before anything is lit.
func begin(atStart *float64, in Terms) Balance {
	if atStart == nil {
		in.Fire = Unlit
		return Start(0, in.Outside, in)
	}
	in.Fire = Out
	return Start(0, *atStart, in)
}

// changes gathers the moments at which the terms of a shelter may change, from
// 0 on to before the end of the timeline.
func (r *Rooms) changes(tl *sim.Timeline, shelter int, steps []sim.Step) {
	r.moments = append(r.moments[:0], 0)
	add := func(t sim.Time) {
		if t > 0 && t < tl.End {
			r.moments = append(r.moments, t)
		}
	}
	for i := range steps {
		add(steps[i].At)
	}
	r.made = r.made[:0]
	for _, i := range r.makers {
		add(tl.Tasks[i].End)
		if tl.Tasks[i].End <= tl.End {
			r.made = append(r.made, i)
		}
	}
	for a := 1; a < len(r.made); a++ { // few of them, and no memory
		for b := a; b > 0 && tl.Tasks[r.made[b]].End < tl.Tasks[r.made[b-1]].End; b-- {
			r.made[b], r.made[b-1] = r.made[b-1], r.made[b]
		}
	}
	for _, i := range r.putters {
		add(tl.Tasks[i].End)
	}
	for _, k := range r.warmers[shelter] {
		add(tl.Tasks[k].Start)
		add(tl.Tasks[k].Worked)
		for _, m := range r.melts {
			if sameStove(tl, k, m) {
				add(tl.Tasks[m].Start)
				add(tl.Tasks[m].End)
			}
		}
	}
	slices.Sort(r.moments)
	r.moments = slices.Compact(r.moments)
}

// terms works out what a shelter depends on in a span.
func (r *Rooms) terms(tl *sim.Timeline, s *Span, shelter int, steps []sim.Step) {
	s.Terms = Terms{Shelter: r.d.Shelters[shelter], Outside: steps[sim.StepAt(steps, s.From)].Air, Fire: Unlit}
	for _, i := range r.made {
		if tl.Tasks[i].End > s.From {
			break
		}
		for _, m := range r.d.Tasks[i].Makes {
			if m.Shelter == shelter {
				s.Terms.Shelter = Apply(s.Terms.Shelter, m)
			}
		}
	}
	if s.Terms.Shelter.AtStart != nil {
		s.Terms.Fire = Out
	}
	last := r.lastWarmUp(tl, shelter, s.From)
	if s.Task = -1; last < 0 {
		return
	}
	warm := r.d.Tasks[last].Warm
	s.Terms.People = PersonPower * float64(warm.People)
	switch {
	case s.From < tl.Tasks[last].Worked:
		s.Terms.Fire = Full
	case r.isOut(tl, last, s.From):
		s.Terms.Fire = Out
		return
	default:
		s.Terms.Fire, s.Terms.To = Keeping, warm.To
	}
	s.Task = last
	for _, m := range r.melts {
		s.Pot = s.Pot || sameStove(tl, last, m) && tl.Tasks[m].Start <= s.From && s.From < tl.Tasks[m].End
	}
	s.Terms.Stove = StovePower(&r.d.Stoves[warm.Stove], s.Pot)
}

// lastWarmUp returns the warm-up of a shelter that began last by a moment, -1
// for none.
func (r *Rooms) lastWarmUp(tl *sim.Timeline, shelter int, at sim.Time) int {
	last := -1
	for _, k := range r.warmers[shelter] {
		if start := tl.Tasks[k].Start; start <= at && (last < 0 || start >= tl.Tasks[last].Start) {
			last = k
		}
	}
	return last
}

// isOut reports whether the stove of a warm-up that has ended is out by a moment.
func (r *Rooms) isOut(tl *sim.Timeline, warmUp int, at sim.Time) bool {
	for _, i := range r.putters {
		end := tl.Tasks[i].End
		if end >= tl.Tasks[warmUp].End && end <= at && PutsOut(r.d, i, warmUp) && r.freed(tl, warmUp, end) <= at {
			return true
		}
	}
	return false
}

// freed returns when the stove of a warm-up that is put out at a moment goes out:
// at once or, where a melt holds it then, when this melt has ended.
func (r *Rooms) freed(tl *sim.Timeline, warmUp int, at sim.Time) sim.Time {
	for _, m := range r.melts {
		if t := &tl.Tasks[m]; stoveOf(&r.d.Tasks[m]) == r.d.Tasks[warmUp].Warm.Stove && t.Unit == tl.Tasks[warmUp].Unit &&
			t.Called < at && at < t.End {
			return t.End
		}
	}
	return at
}

// PutsOut reports whether a task, when it ends, puts out the stove of a warm-up
// that has ended: one of a kind that it names, in the shelter in which the task
// is done or, where that is in none, in any.
func PutsOut(d *sim.Drill, task, warmUp int) bool {
	t, w := &d.Tasks[task], d.Tasks[warmUp].Warm
	in := d.PutsOutIn(t)
	return slices.Contains(t.PutsOut, w.Stove) && (in < 0 || in == w.Shelter)
}

// Temperature returns the temperature in degrees C at a moment of a span.
func (s *Span) Temperature(at sim.Time) float64 { return s.balance.Temperature(at) }

// Gives returns the joules that the stove gives the air in a span.
func (s *Span) Gives() float64 { return s.balance.Gives(s.From, s.To) }

// Temperature returns the temperature in degrees C in a room at a moment from
// 0 to the end of the timeline; ok is false before it is lit.
func (r *Room) Temperature(at sim.Time) (celsius float64, ok bool) {
	if at < r.Lit || len(r.Spans) == 0 {
		return 0, false
	}
	i := len(r.Spans) - 1
	for i > 0 && r.Spans[i].From > at {
		i--
	}
	return r.Spans[i].Temperature(at), true
}

// Coldest returns the lowest temperature in degrees C of a room from when it is
// warm to the end of its timeline. In a span the air goes one way only, so its
// ends tell.
func (r *Room) Coldest(end sim.Time) float64 {
	least, _ := r.Temperature(end)
	for i := range r.Spans {
		s := &r.Spans[i]
		if s.To > r.Warm {
			least = min(least, s.Temperature(max(s.From, r.Warm)), s.Temperature(s.To))
		}
	}
	return least
}

// Out returns the moment from which no stove burns in the room any more, the
// end of the timeline where one burns to the end; ok is false where none ever
// did.
func (r *Room) Out() (at sim.Time, ok bool) {
	for i := range r.Spans {
		if r.Spans[i].Task >= 0 {
			at, ok = r.Spans[i].To, true
		}
	}
	return at, ok
}

// count enters the whole degrees of a span.
func (r *Room) count(s *Span) {
	if s.From < r.Lit || s.From >= s.To {
		return
	}
	r.enter(s.From, wholeDegrees(s.Temperature(s.From)))
	l := &s.balance.now
	begin, end := float64(s.From-l.at), float64(s.To-l.at)
	first, then, change := l.phases()
	if begin < change {
		r.cross(s, first, 0, min(change, end))
	}
	if end > change {
		r.cross(s, then, change, end)
	}
}

// cross enters the degrees that a phase crosses, from one number of
// milliseconds after the beginning of the leg to another. The degrees in force
// change where the temperature is half way between two.
func (r *Room) cross(s *Span, p phase, begin, end float64) {
	l := &s.balance.now
	towards := l.holds(l.people + p.stove)
	if p.still || towards == p.from {
		return
	}
	way := 1
	if towards < p.from {
		way = -1
	}
	for c := r.Degrees[len(r.Degrees)-1].C; c+way <= mildest; c += way {
		level, ms := float64(c)+float64(0.5*float64(way)), begin
		if (level-p.from)*float64(way) > 0 {
			ms += l.timeTo(p, level)
		}
		if !(ms < end) {
			return
		}
		r.enter(max(s.From, l.at+sim.Time(math.Round(ms))), c+way)
	}
}

// enter says that a number of degrees holds from a moment on.
func (r *Room) enter(at sim.Time, c int) {
	if n := len(r.Degrees); n > 0 && r.Degrees[n-1].C == c {
		return
	} else if n > 0 && r.Degrees[n-1].From == at {
		r.Degrees[n-1].C = c
		return
	}
	r.Degrees = append(r.Degrees, Degree{at, c})
}

func wholeDegrees(celsius float64) int {
	return int(math.Floor(min(celsius, mildest) + 0.5))
}

// WarmBy returns when a warm-up that a timeline began would have had its shelter
// as warm as asked with so many people inside instead of those it counts on, all
// else equal; Never if not by the end of the timeline.
func WarmBy(tl *sim.Timeline, task int, people float64) sim.Time {
	warm := tl.Drill.Tasks[task].Warm
	start := tl.Tasks[task].Start
	room := RoomsOf(tl)[warm.Shelter]
	var b Balance
	for i := range room.Spans {
		s := &room.Spans[i]
		if s.To <= start {
			continue
		}
		in := s.Terms
		in.People, in.Fire, in.To = PersonPower*people, Full, 0
		in.Stove = StovePower(&tl.Drill.Stoves[warm.Stove], s.Pot)
		if s.From <= start {
			c, _ := room.Temperature(start)
			b = Start(start, c, in)
		} else {
			b.Change(s.From, in)
		}
		if at := max(b.Reaches(warm.To), start+1); at <= s.To {
			return at
		}
	}
	return sim.Never
}
