package sim

import (
	"math"
	"math/bits"
)

// WorkUnit is one person-millisecond of work: work and rates count
// millionths of it.
const WorkUnit = 1_000_000

// DefaultTeamwork is the exponent of a crew's joint effort when a scenario
// gives none: a crew of n does n^0.9 times the work of one.
const DefaultTeamwork = 0.9

// Effective returns e_n = round(10^6 n^x): how many people a crew of n is
// worth, in millionths, with teamwork x.
func Effective(n int, teamwork float64) int64 {
	if n <= 0 {
		return 0
	}
	return int64(math.Round(WorkUnit * math.Pow(float64(n), teamwork)))
}

// Rate returns what a crew gets done each millisecond, in millionths of a
// person-millisecond: floor(e_n P / (n s)), with P the sum of the paces of the
// n people there and s what slows them, both in thousandths.
func Rate(n int, teamwork float64, paces, slowed int64) int64 {
	if n <= 0 {
		return 0
	}
	return RateOf(Effective(n, teamwork), n, paces, slowed)
}

// RateOf is [Rate] with e_n at hand.
func RateOf(effective int64, n int, paces, slowed int64) int64 {
	hi, lo := bits.Mul64(uint64(effective), uint64(paces))
	div := uint64(n) * uint64(slowed)
	if hi >= div {
		return math.MaxInt64
	}
	q, _ := bits.Div64(hi, lo, div)
	if q > math.MaxInt64 {
		return math.MaxInt64
	}
	return int64(q)
}

// MeltRate returns what a melt gets done each millisecond, in millionths of a
// millisecond at full power, when slowed by so many thousandths: floor(10^9 / s).
func MeltRate(slowed int64) int64 { return 1000 * WorkUnit / slowed }

// Labour is an amount of work in millionths of a person-millisecond:
// Hi 2^64 + Lo. A hundred hours of a hundred people overflow 64 bits.
type Labour struct{ Hi, Lo uint64 }

// None reports whether there is no work.
func (l Labour) None() bool { return l.Hi|l.Lo == 0 }

// Float returns the work as a number, rounded.
func (l Labour) Float() float64 { return math.Ldexp(float64(l.Hi), 64) + float64(l.Lo) }

// After returns what is left when a length of time has been worked at a rate.
func (l Labour) After(rate int64, dt Time) Labour {
	hi, lo := bits.Mul64(uint64(rate), uint64(dt))
	lo, borrow := bits.Sub64(l.Lo, lo, 0)
	if hi, borrow = bits.Sub64(l.Hi, hi, borrow); borrow > 0 {
		return Labour{}
	}
	return Labour{hi, lo}
}

// Takes returns the first whole millisecond after which the work is done at a
// rate; Never at rate 0 with work left, and when it takes longer than there are
// milliseconds.
func (l Labour) Takes(rate int64) Time {
	if l.Hi == 0 && l.Lo-1 < 1<<62 && rate > 0 { // nearly always
		return Time((l.Lo-1)/uint64(rate)) + 1
	}
	switch {
	case l.None():
		return 0
	case rate <= 0 || l.Hi >= uint64(rate):
		return Never
	}
	ms, rest := bits.Div64(l.Hi, l.Lo, uint64(rate))
	if rest > 0 {
		ms++
	}
	return Time(min(ms, uint64(Never)))
}

// Work returns the work of a drawn amount of milliseconds: person-
// milliseconds for a Work task, clock time of the people timed for a Timed
// one; for a Takes task the time itself in milliseconds.
func (t *Task) Work(ms Time) Labour { return WorkOf(ms, t.WorkUnits()) }

// WorkUnits returns how much work one drawn millisecond of a task is; see
// [Task.Work].
func (t *Task) WorkUnits() uint64 {
	switch t.Kind {
	case Work:
		return WorkUnit
	case Timed:
		return uint64(Effective(t.TimedPeople, t.Teamwork))
	}
	return 1
}

// WorkOf is [Task.Work] with its units at hand.
func WorkOf(ms Time, units uint64) Labour {
	hi, lo := bits.Mul64(uint64(ms), units)
	return Labour{hi, lo}
}

// Worked reports whether the task is done by work, so that crew size, pace
// and slowdowns count, and not by the clock.
func (t *Task) Worked() bool { return t.Kind == Work || t.Kind == Timed }

// FollowsDay reports whether the day's factor is in its length.
func (t *Task) FollowsDay() bool { return t.Worked() || t.ByDay }
