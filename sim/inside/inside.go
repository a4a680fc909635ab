// Package inside says who is in which shelter from when to when.
//
// People are in a shelter while they work, wait, stand at a lookout or are free
// at a spot in it. Besides, who is free outdoors goes into a warm shelter: that
// is not in the timeline, which does not change by it, but read into it here, for
// the account of cold ([Reader], [Visit]). [Stays] has all of them together, [Alone]
// the times in which a stove burns in a shelter with nobody in it, [Assumed] how
// many were inside against how many a warm-up counts on.
//
// A shelter is warm for going in from the end of its first warm-up on, or from the
// arrival when it has a temperature at the start. Who is free outdoors for longer
// than the two walks and [Least] more walks there, is inside, and walks back so as
// to be back when the free time ends. Where they go, and who finds room where a
// shelter sleeps fewer than would go in, is told at [Reader.Read].
package inside

import (
	"slices"

	"warmby/sim"
)

// Least is how long a stay must last at least to be worth the two walks.
const Least = 2 * sim.Minute

// Visit is a time in which somebody free goes into a warm shelter: on the way
// there from Leave to In, inside from In to Out, on the way back from Out to Back.
type Visit struct {
	Shelter              int
	Spot                 int // where in the shelter; the centre of camp where no spot lies in it
	Leave, In, Out, Back sim.Time
}

// Reader finds who goes in along timelines of one drill. It belongs to one
// goroutine; once it has met timelines like them it takes no memory of its own.
type Reader struct {
	d       *sim.Drill
	doors   [][]door // by spot, by shelter
	warmers []int
	bounded []bool     // by shelter: whether it may be full
	begun   []sim.Time // by shelter: from when its spots are no longer outdoors
	warm    []sim.Time // by shelter: from when people go in
	visits  [][]Visit  // by person
	seekers []seeker
	there   [][]stay // by shelter, of those that may be full
}

// door is where a shelter is entered from a spot, and the walk to there.
type door struct {
	spot int
	walk sim.Time
}

// seeker is somebody who is free outdoors and would go in.
type seeker struct {
	person, spot int
	from, to     sim.Time
	there        sim.Time // when he gets to the nearest shelter that is warm
}

// stay is a time that somebody is in a shelter.
type stay struct {
	person   int
	from, to sim.Time
}

// New returns a reader for the timelines of a drill.
func New(d *sim.Drill) *Reader {
	n := len(d.Shelters)
	r := &Reader{d: d, begun: make([]sim.Time, n), warm: make([]sim.Time, n), bounded: make([]bool, n), there: make([][]stay, n), visits: make([][]Visit, len(d.People))}
	for i := range d.Tasks {
		if d.Tasks[i].Kind == sim.Warm {
			r.warmers = append(r.warmers, i)
		}
	}
	for i := range d.Shelters {
		r.bounded[i] = d.Shelters[i].Sleeps > 0 && d.Shelters[i].Sleeps < len(d.People)
	}
	for spot := range d.Spots {
		doors := make([]door, n)
		for shelter := range doors {
			doors[shelter] = doorOf(d, spot, shelter)
		}
		r.doors = append(r.doors, doors)
	}
	return r
}

// doorOf returns where a shelter is entered from a spot: at the nearest of the
// spots in it, of equals the first, or at the centre of camp where there is none.
func doorOf(d *sim.Drill, from, shelter int) door {
	best := door{-1, 0}
	for i := range d.Spots {
		if walk := d.WalkTime(from, i); d.Spots[i].In == shelter && (best.spot < 0 || walk < best.walk) {
			best = door{i, walk}
		}
	}
	if best.spot < 0 {
		return door{0, d.WalkTime(from, 0)}
	}
	return best
}

// Read finds who goes in along a timeline: the visits of each person, in roster
// order, by time. They hold until the next timeline is read.
//
// They go to the nearest spot in a shelter that is warm, by the walk from where
// they are; of equals the first in the file. What is left of a free time when a
// shelter grows warm counts. In a shelter that sleeps so many there are no more:
// who is there by the timeline counts, and of those who go in the first to get
// there, then the first of the roster, has the place. Who finds no room goes to
// the next shelter with room, or waits until there is; who is inside when others
// need the place by the timeline goes out again.
func (r *Reader) Read(tl *sim.Timeline) [][]Visit {
	for i := range r.visits {
		r.visits[i] = r.visits[i][:0]
	}
	if r.d.Idle.StayOut || !r.heat(tl) {
		return r.visits
	}
	r.seek(tl)
	if slices.Contains(r.bounded, true) {
		r.stand(tl)
		r.inTurn()
		return r.visits
	}
	for i := range r.seekers {
		for s := &r.seekers[i]; r.settle(s); {
		}
	}
	return r.visits
}

// heat reads from when shelters are warm, and reports whether one is at all.
func (r *Reader) heat(tl *sim.Timeline) bool {
	any := false
	for i := range r.warm {
		r.begun[i], r.warm[i] = sim.Never, sim.Never
		if r.d.Shelters[i].AtStart != nil {
			r.begun[i], r.warm[i], any = 0, 0, true
		}
	}
	for _, k := range r.warmers {
		s := r.d.Tasks[k].Warm.Shelter
		r.begun[s], r.warm[s] = min(r.begun[s], tl.Tasks[k].Start), min(r.warm[s], tl.Tasks[k].End)
		any = any || r.warm[s] < tl.End
	}
	return any
}

// seek gathers who is free outdoors from when to when.
func (r *Reader) seek(tl *sim.Timeline) {
	r.seekers = r.seekers[:0]
	for who, stretches := range tl.People {
		for i := 0; i < len(stretches); i++ {
			s := &stretches[i]
			if s.What != sim.Free {
				continue
			}
			to := s.To
			for i+1 < len(stretches) && stretches[i+1].What == sim.Free && stretches[i+1].Spot == s.Spot {
				i++
				to = stretches[i].To
			}
			if in := r.d.Spots[s.Spot].In; in >= 0 {
				to = min(to, r.begun[in])
			}
			if to-s.From > Least {
				r.seekers = append(r.seekers, seeker{person: who, spot: s.Spot, from: s.From, to: to})
			}
		}
	}
}

// settle takes a seeker to the nearest shelter that is warm and has room and
// reports whether there is anything left to seek.
func (r *Reader) settle(s *seeker) bool {
	for {
		shelter, tried := -1, -1
		for {
			if shelter = r.nearest(s, shelter); shelter < 0 {
				break
			}
			tried = shelter
			walk := r.doors[s.spot][shelter].walk
			in, out := s.from+walk, s.to-walk
			until := r.room(shelter, s.person, in, out)
			if until-in <= Least {
				continue
			}
			r.visits[s.person] = append(r.visits[s.person], Visit{shelter, r.doors[s.spot][shelter].spot, s.from, in, until, until + walk})
			if r.bounded[shelter] {
				r.there[shelter] = append(r.there[shelter], stay{s.person, in, until})
			}
			s.from = until + walk
			return s.from < s.to
		}
		next := r.later(s, tried >= 0)
		if next >= s.to {
			return false
		}
		s.from = next
		if tried >= 0 {
			return true // others may be there first
		}
	}
}

// nearest returns the next shelter that is warm and near enough, by walk, then by
// spot, then by file; after -1 the first, -1 when there is no more.
func (r *Reader) nearest(s *seeker, after int) int {
	doors := r.doors[s.spot]
	before := func(a, b int) bool {
		if doors[a].walk != doors[b].walk {
			return doors[a].walk < doors[b].walk
		}
		if doors[a].spot != doors[b].spot {
			return doors[a].spot < doors[b].spot
		}
		return a < b
	}
	best := -1
	for i := range doors {
		if r.warm[i] > s.from || s.to-s.from <= 2*doors[i].walk+Least || after >= 0 && !before(after, i) {
			continue
		}
		if best < 0 || before(i, best) {
			best = i
		}
	}
	return best
}

// room returns until when, at most, a shelter has room for one more from a moment
// on; that moment itself when it has none then.
func (r *Reader) room(shelter, person int, in, out sim.Time) sim.Time {
	if !r.bounded[shelter] {
		return out
	}
	if r.count(shelter, person, in) >= r.d.Shelters[shelter].Sleeps {
		return in
	}
	until := out
	for i := range r.there[shelter] {
		if t := &r.there[shelter][i]; t.from > in && t.from < until && r.count(shelter, person, t.from) >= r.d.Shelters[shelter].Sleeps {
			until = t.from
		}
	}
	return until
}

// count returns how many others are in a shelter at a moment.
func (r *Reader) count(shelter, person int, at sim.Time) (n int) {
	there := r.there[shelter]
	for i := range there {
		t := &there[i]
		is := (uint64(t.from-at-1) & uint64(at-t.to)) >> 63 // no processor could foresee a branch
		if t.person == person {
			is = 0
		}
		n += int(is)
	}
	return n
}

// later returns when a seeker may try again: when another shelter grows warm or,
// where one was full, so as to get there when somebody leaves.
func (r *Reader) later(s *seeker, full bool) sim.Time {
	next := sim.Never
	for i := range r.warm {
		if r.warm[i] > s.from {
			next = min(next, r.warm[i])
		}
	}
	if !full {
		return next
	}
	for shelter, there := range r.there {
		if r.warm[shelter] > s.from {
			continue
		}
		walk := r.doors[s.spot][shelter].walk
		for i := range there {
			if out := there[i].to - walk; out > s.from {
				next = min(next, out)
			}
		}
	}
	return next
}

// stand gathers who is in the shelters that may be full by the timeline.
func (r *Reader) stand(tl *sim.Timeline) {
	for i := range r.there {
		r.there[i] = r.there[i][:0]
	}
	for who, stretches := range tl.People {
		for i := range stretches {
			s := &stretches[i]
			if in := r.d.Spots[s.Spot].In; in >= 0 && r.bounded[in] && s.What != sim.Walking && s.From < s.To {
				r.there[in] = append(r.there[in], stay{who, s.From, s.To})
			}
		}
	}
}

// inTurn settles seekers in the order in which they get there, then by roster.
func (r *Reader) inTurn() {
	for i := range r.seekers {
		r.aim(&r.seekers[i])
	}
	for len(r.seekers) > 0 {
		first := 0
		for i := range r.seekers {
			a, b := &r.seekers[i], &r.seekers[first]
			if a.there < b.there || a.there == b.there && a.person < b.person {
				first = i
			}
		}
		if s := &r.seekers[first]; s.there < sim.Never && r.settle(s) {
			r.aim(s)
			continue
		}
		r.seekers = slices.Delete(r.seekers, first, first+1)
	}
}

// aim works out when a seeker gets to the nearest shelter that is warm, after it
// has grown warm; Never when there is none in time.
func (r *Reader) aim(s *seeker) {
	for s.there = sim.Never; s.from < s.to; {
		if shelter := r.nearest(s, -1); shelter >= 0 {
			s.there = s.from + r.doors[s.spot][shelter].walk
			return
		}
		s.from = r.later(s, false)
	}
}
