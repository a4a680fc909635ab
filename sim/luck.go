package sim

import "slices"

// Luck is one set of draws for a drill: what two orders of the same scenario
// have in common in the same run. Package warmby/sim/draw makes them.
type Luck struct {
	// Amount is the drawn length of each task in milliseconds, before the
	// crew counts: person-milliseconds for Work, clock time for Timed and Takes, 0
	// for Melt and Warm. The day's factor is in those of Work and Timed.
	Amount []Time
	// Mishap is what mishaps add to each task, all of them together.
	Mishap []Time
	// Mishaps is how many there were of each.
	Mishaps []int
	// MishapThen and MishapsThen are the same of tasks on which work starts while
	// the condition of their mishap holds, see [Mishap.When]; nil where no mishap
	// has one.
	MishapThen  []Time
	MishapsThen []int

	Person  []Time // when each person arrives
	Load    []Time // when each load arrives
	Weather int    // which weather case; 0 when there is none
	// Pace is that of each person in this run, in thousandths; nil when nobody has a
	// day of his own, and all have the paces of the drill.
	Pace []int64
}

// MishapsOf returns how many mishaps a task meets and what they add, all together,
// when work on it starts at a moment.
func (l *Luck) MishapsOf(d *Drill, task int, start Time) (times int, adds Time) {
	m := d.Tasks[task].Mishap
	if l.MishapThen != nil && m != nil && m.When != nil && start != Never {
		if steps := d.Steps(l.Weather); m.When.Holds(&d.Site, steps[StepAt(steps, start)]) {
			return l.MishapsThen[task], l.MishapThen[task]
		}
	}
	return l.Mishaps[task], l.Mishap[task]
}

// SetMishaps lets a task meet so many mishaps, whenever work on it starts.
func (l *Luck) SetMishaps(task, times int, adds Time) {
	l.Mishaps[task], l.Mishap[task] = times, adds
	if l.MishapThen != nil {
		l.MishapsThen[task], l.MishapThen[task] = times, adds
	}
}

// LeastMishap returns what mishaps add to a task at least, whenever it starts.
func (l *Luck) LeastMishap(task int) Time {
	if l.MishapThen == nil {
		return l.Mishap[task]
	}
	return min(l.Mishap[task], l.MishapThen[task])
}

// Equal reports whether two lucks are the same, so that a drill plays out the same
// under both.
func (l *Luck) Equal(o *Luck) bool {
	return slices.Equal(l.Amount, o.Amount) && slices.Equal(l.Mishap, o.Mishap) && slices.Equal(l.Mishaps, o.Mishaps) &&
		slices.Equal(l.MishapThen, o.MishapThen) && slices.Equal(l.MishapsThen, o.MishapsThen) &&
		slices.Equal(l.Person, o.Person) && slices.Equal(l.Load, o.Load) && slices.Equal(l.Pace, o.Pace) && l.Weather == o.Weather
}

// PaceOf returns the pace of a person in this run, in thousandths.
func (l *Luck) PaceOf(d *Drill, person int) int64 {
	if l.Pace == nil {
		return d.People[person].Pace
	}
	return l.Pace[person]
}

// MostPace is the highest pace, in thousandths.
const MostPace = 100_000

// PaceBy returns a pace on a day by whose factor all work takes longer: both in
// thousandths, half of one up, 1 at least and [MostPace] at most.
func PaceBy(pace int64, factor float64) int64 {
	by := float64(pace) / factor
	if !(by < MostPace) {
		return MostPace
	}
	whole := int64(by)
	if by-float64(whole) >= 0.5 {
		whole++
	}
	return max(1, whole)
}
