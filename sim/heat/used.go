package heat

import (
	"sort"

	"warmby/sim"
)

// FuelUse is what the stoves of one kind burned in a drill.
type FuelUse struct {
	Stove int     // kind
	Hours float64 // all units together
	// Amount is the fuel in litres, or in kilograms when ByMass; 0 when the
	// heat of the fuel is not known, for which Known stands.
	Amount float64
	ByMass bool
	Known  bool
}

// Used returns what each kind of stove burned, in the order of the drill. A
// stove burns at full power while a melt or a warm-up is on it, from the
// start of the task to its end, or to the timeline's when it never ended;
// a melt and a warm-up at once on one stove burn no more than one.
func Used(tl *sim.Timeline) []FuelUse {
	uses := make([]FuelUse, len(tl.Drill.Stoves))
	for i := range uses {
		s := &tl.Drill.Stoves[i]
		burns := burning(tl, i)
		uses[i] = FuelUse{Stove: i, Hours: burns.Seconds() / 3600, ByMass: s.FuelByMass, Known: s.FuelHeat > 0}
		if s.FuelHeat > 0 {
			uses[i].Amount = s.Power * burns.Seconds() / s.FuelHeat
		}
	}
	return uses
}

// burning returns how long the stoves of a kind burn, all together.
func burning(tl *sim.Timeline, stove int) sim.Time {
	type burn struct {
		unit     int
		from, to sim.Time
	}
	var burns []burn
	for i := range tl.Drill.Tasks {
		if stoveOf(&tl.Drill.Tasks[i]) == stove && tl.Tasks[i].Start != sim.Never {
			burns = append(burns, burn{tl.Tasks[i].Unit, tl.Tasks[i].Start, endOf(tl, i)})
		}
	}
	sort.Slice(burns, func(i, j int) bool {
		a, b := burns[i], burns[j]
		if a.unit != b.unit {
			return a.unit < b.unit
		}
		return a.from < b.from
	})
	var total, until sim.Time
	for i, b := range burns {
		if i == 0 || b.unit != burns[i-1].unit {
			until = 0
		}
		total += max(0, b.to-max(b.from, until))
		until = max(until, b.to)
	}
	return total
}
