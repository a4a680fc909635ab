package cold

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// Sweat is what somebody sweats at one thing in a drill.
type Sweat struct {
	What    sim.Activity
	Task    int // -1 for none
	Lookout int // -1 for none
	Grams   float64
	Time    sim.Time // how long it came
	Halt    bool     // whether it came mostly in what is worn at the halt
}

const (
	skinArea   = 1.8   // m2, the standard person. From memory.
	latentHeat = 0.675 // Wh/g: 2.43 MJ/kg, the latent heat of evaporation at skin temperature
)

// sweat returns the grams of sweat that take away heat in Wh/m2.
func sweat(over float64) float64 { return over * skinArea / latentHeat }

// sweats adds up what the entries of a ledger say of sweat, by what the person is
// about, the most first.
func (p *Person) sweats() {
	halt := map[Sweat]float64{}
	var list []Sweat
	for _, e := range p.Ledger {
		if e.Sweat == 0 {
			continue
		}
		key := Sweat{What: e.What, Task: e.Task, Lookout: e.Lookout}
		k := slices.IndexFunc(list, func(s Sweat) bool { return s.What == e.What && s.Task == e.Task && s.Lookout == e.Lookout })
		if k < 0 {
			list, k = append(list, key), len(list)
		}
		list[k].Grams += e.Sweat
		list[k].Time += e.To - e.From
		if e.Halt {
			halt[key] += e.Sweat
		}
		p.Sweat += e.Sweat
	}
	for i := range list {
		s := &list[i]
		s.Halt = 2*halt[Sweat{What: s.What, Task: s.Task, Lookout: s.Lookout}] > s.Grams
	}
	slices.SortStableFunc(list, func(a, b Sweat) int { return cmp.Compare(b.Grams, a.Grams) })
	p.Sweats = list
}
