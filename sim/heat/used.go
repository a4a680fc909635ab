package heat

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// FuelUse is what the stoves of one kind burned in a drill.
type FuelUse struct {
	Stove int     // kind
	Hours float64 // all units together, turned down ones too
	// Amount is the fuel in litres, or in kilograms when ByMass; 0 when the
	// heat of the fuel is not known, for which Known stands.
	Amount float64
	ByMass bool
	Known  bool
	// Keeping is the part of Amount that was burnt to keep shelters warm after
	// their warm-ups, with no pot on the stove.
	Keeping float64
}

// Used returns what each kind of stove burned, in the order of the drill, until
// it was put out or the timeline ended. A stove burns at full power during a
// melt and the work on a warm-up, and while it keeps a shelter warm with a pot on
// it; a melt and a warm-up at once on one stove burn no more than one. Keeping a
// shelter warm with no pot on it burns what that takes.
func Used(tl *sim.Timeline) []FuelUse {
	rooms := RoomsOf(tl)
	uses := make([]FuelUse, len(tl.Drill.Stoves))
	for i := range uses {
		s := &tl.Drill.Stoves[i]
		full := together(fullBurns(tl, i))
		kept, joules := keptBurns(tl, i, rooms)
		uses[i] = FuelUse{Stove: i, Hours: (full + kept).Seconds() / 3600, ByMass: s.FuelByMass, Known: s.FuelHeat > 0}
		if s.FuelHeat > 0 {
			uses[i].Keeping = joules / s.FuelHeat
			uses[i].Amount = float64(s.Power*full.Seconds()/s.FuelHeat) + uses[i].Keeping
		}
	}
	return uses
}

// burn is a stretch of time in which one stove of a kind burns.
type burn struct {
	unit     int
	from, to sim.Time
}

// fullBurns returns when stoves of a kind burn at full power.
func fullBurns(tl *sim.Timeline, stove int) []burn {
	var burns []burn
	for i := range tl.Drill.Tasks {
		t := &tl.Tasks[i]
		if stoveOf(&tl.Drill.Tasks[i]) != stove || t.Start == sim.Never {
			continue
		}
		to := endOf(tl, i)
		if tl.Drill.Tasks[i].Kind == sim.Warm {
			to = max(t.Start, min(t.Worked, tl.End)) // kept warm from then on, in a mishap too
		}
		burns = append(burns, burn{t.Unit, t.Start, to})
	}
	return burns
}

// keptBurns returns how long stoves of a kind keep shelters warm with no pot on
// them, and the heat of the fuel that this takes, in joules.
func keptBurns(tl *sim.Timeline, stove int, rooms []Room) (kept sim.Time, joules float64) {
	for i := range rooms {
		for k := range rooms[i].Spans {
			s := &rooms[i].Spans[k]
			if s.Terms.Fire == Keeping && !s.Pot && tl.Drill.Tasks[s.Task].Warm.Stove == stove {
				kept += s.To - s.From
				joules += s.Burns(&tl.Drill.Stoves[stove])
			}
		}
	}
	return kept, joules
}

// Burns returns the heat of the fuel in joules that the stove of a span burns in
// it: all that it can while warming up or with a pot on it, else what keeping
// the temperature takes.
func (s *Span) Burns(stove *sim.Stove) float64 {
	switch {
	case s.Task < 0:
		return 0
	case s.Terms.Fire == Full || s.Pot:
		return stove.Power * (s.To - s.From).Seconds()
	case inside(stove) > 0:
		return s.Gives() / inside(stove)
	}
	return 0
}

// together returns how long burns last, all together, the same stove at once
// counting once.
func together(burns []burn) sim.Time {
	slices.SortFunc(burns, func(a, b burn) int {
		return cmp.Or(cmp.Compare(a.unit, b.unit), cmp.Compare(a.from, b.from))
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
