package batch

import (
	"encoding/binary"
	"math"

	"warmby/sim"
	"warmby/sim/heat"
)

// Activities is how many things a person may be about: a row of
// [OrderRuns.Spent] has as many.
const Activities = int(sim.Watching) + 1

// Burnt is what the stoves of one kind burned in one run.
type Burnt struct {
	Lit sim.Time // how long, all together
	// Fuel is how much, in millionths of a litre or of a kilogram; below 0 when
	// the heat of the fuel is not known, or the run came to a stop.
	Fuel int64
}

// CrewWords is how many words a crew has: person p is bit p % 64 of word p / 64.
func CrewWords(people int) int { return (people + 63) / 64 }

// tellTasks appends when each task was called, begun and ended, who was on it and
// of which milestones it is on the critical sequence.
func (o *OrderRuns) tellTasks(tl *sim.Timeline) {
	words := CrewWords(len(tl.People))
	at := len(o.Critical)
	for i := range tl.Tasks {
		t := &tl.Tasks[i]
		o.Start, o.End = append(o.Start, t.Start), append(o.End, t.End)
		o.Called = append(o.Called, t.Called)
		o.Critical = append(o.Critical, 0)
		first := len(o.Crew)
		for range words {
			o.Crew = append(o.Crew, 0)
		}
		for _, who := range t.People {
			o.Crew[first+who/64] |= 1 << (who % 64)
		}
	}
	for m := range min(64, len(tl.Milestones)) {
		for task, critical := range tl.Critical(m) {
			if critical {
				o.Critical[at+task] |= 1 << m
			}
		}
	}
}

// tellPeople appends how long each person was about what.
func (o *OrderRuns) tellPeople(tl *sim.Timeline) {
	for _, stretches := range tl.People {
		first := len(o.Spent)
		for range Activities {
			o.Spent = append(o.Spent, 0)
		}
		for _, s := range stretches {
			o.Spent[first+int(s.What)] += s.To - s.From
		}
	}
}

// tellFuel appends what each kind of stove burned.
func (o *OrderRuns) tellFuel(tl *sim.Timeline) {
	for _, u := range heat.Used(tl) {
		b := Burnt{Lit: sim.Milliseconds(u.Hours * 3600_000), Fuel: -1}
		if u.Known {
			b.Fuel = int64(math.Round(1e6 * u.Amount))
		}
		o.Fuel = append(o.Fuel, b)
	}
}

// appendTold writes what timelines tell: each as how many numbers, and the
// numbers.
func appendTold(b []byte, o *OrderRuns) []byte {
	b = appendTimesOf(b, o.Called)
	b = appendWords(b, o.Critical)
	b = appendWords(b, o.Crew)
	b = appendTimesOf(b, o.Spent)
	b = binary.AppendUvarint(b, uint64(len(o.Fuel)))
	for _, f := range o.Fuel {
		b = appendTime(b, f.Lit)
		b = binary.AppendUvarint(b, uint64(f.Fuel+1))
	}
	return b
}

func appendTimesOf(b []byte, times []sim.Time) []byte {
	b = binary.AppendUvarint(b, uint64(len(times)))
	for _, t := range times {
		b = appendTime(b, t)
	}
	return b
}

func appendWords(b []byte, words []uint64) []byte {
	b = binary.AppendUvarint(b, uint64(len(words)))
	for _, w := range words {
		b = binary.AppendUvarint(b, w)
	}
	return b
}

// told reads what appendTold wrote.
func (r *numbers) told(o *OrderRuns) {
	o.Called, o.Critical, o.Crew, o.Spent = r.times(), r.words(), r.words(), r.times()
	n := r.count()
	if n > len(r.b)/2 {
		r.bad = true
		return
	}
	for range n {
		o.Fuel = append(o.Fuel, Burnt{r.time(), int64(r.count()) - 1})
	}
}

func (r *numbers) words() []uint64 { return listOf(r, r.next) }
