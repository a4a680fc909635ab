// Package invent makes stop-watch logs of drills that never were, from a known
// truth: for demonstrations, and to see whether a fit finds the truth again.
//
// [TruthOf] draws how a team differs from its scenario file; [Truth.Luck] draws
// an evening of it; [Drill] plays that and notes it down as people with a
// stop-watch do. The same seed gives the same log.
package invent

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/fit"
	"warmby/sim/timed"
)

// Truth is what the lengths of a team's tasks really follow.
type Truth struct {
	Laws      []fit.Law // levels and spreads as they really are
	Day       float64   // spread of the logarithm of the day's factor
	Chance    []float64 // of a mishap, by task
	Then      []float64 // the same with the condition of the mishap; as Chance where it has none
	Efficient []float64 // true efficiency of each stove over that of the file
	Learning  float64   // exponent of Wright's curve; 0 learns nothing
}

// Differs says how far a truth may be from the file, as standard deviations of
// logarithms.
type Differs struct {
	Shift, Task, Spread, Stove float64
	Slower                     float64 // the mean of the shift
	Learning                   float64
}

// Usually is how teams and files differ here: invented.
var Usually = Differs{Shift: 0.15, Task: 0.22, Spread: 0.25, Stove: 0.12, Slower: 0.12}

// TruthOf draws how a team differs from a drill's file.
func TruthOf(d *sim.Drill, how Differs, seed uint64) Truth {
	s := dice{rand.New(rand.NewPCG(seed, 1))}
	t := Truth{Laws: fit.Laws(d), Day: 0.05 + 0.12*s.even(), Learning: how.Learning}
	work, fixed := how.Slower+how.Shift*s.normal(), how.Shift*s.normal()/2
	for i := range t.Laws {
		l := &t.Laws[i]
		l.Level += how.Task * s.normal()
		l.Spread *= math.Exp(how.Spread * s.normal())
		if l.Work {
			l.Level += work
		} else {
			l.Level += fixed
		}
	}
	for i := range d.Tasks {
		chance, then := 0.0, 0.0
		if m := d.Tasks[i].Mishap; m != nil {
			often := 0.5 + s.even()
			if chance, then = m.Chance*often, m.Chance*often; m.When != nil {
				then = m.Then * often
			}
		}
		t.Chance, t.Then = append(t.Chance, chance), append(t.Then, then)
	}
	for range d.Stoves {
		t.Efficient = append(t.Efficient, math.Exp(how.Stove*s.normal()))
	}
	return t
}

// dice draws by inverse distribution functions.
type dice struct{ *rand.Rand }

func (s dice) even() float64   { return (float64(s.Uint64()>>12) + 0.5) / (1 << 52) }
func (s dice) normal() float64 { return distuv.UnitNormal.Quantile(s.even()) }

// Luck draws an evening: the attempt-th of the team, from 1.
func (t Truth) Luck(d *sim.Drill, seed uint64, attempt int) *sim.Luck {
	s := dice{rand.New(rand.NewPCG(seed, uint64(attempt)+10))}
	l := draw.Run(d, seed, attempt)
	day := t.Day*s.normal() + t.Learning*math.Log(float64(max(1, attempt)))
	for _, law := range t.Laws {
		y := law.Level + law.Spread*s.normal()
		if law.Work {
			y += day
		}
		l.Amount[law.Task] = sim.Milliseconds(math.Exp(y))
	}
	for i := range d.Tasks {
		l.SetMishaps(i, 0, 0)
		if m := d.Tasks[i].Mishap; m != nil {
			t.mishaps(l, i, m, s)
		}
	}
	return l
}

// mishaps draws those of a task, with and without the condition of its mishap by
// the same numbers.
func (t Truth) mishaps(l *sim.Luck, task int, m *sim.Mishap, s dice) {
	for k := range m.AtMost {
		u := s.even()
		if u >= max(t.Chance[task], t.Then[task]) {
			return
		}
		adds := sim.Milliseconds(m.Adds.Quantile(s.even()))
		if u < t.Chance[task] && l.Mishaps[task] == k {
			l.Mishaps[task]++
			l.Mishap[task] += adds
		}
		if l.MishapThen != nil && u < t.Then[task] && l.MishapsThen[task] == k {
			l.MishapsThen[task]++
			l.MishapThen[task] += adds
		}
	}
}

// Habits says how people note a drill down.
type Habits struct {
	Ends   bool           // ends only
	Only   func(int) bool // which tasks are called out; nil for all
	Missed float64        // share of mishaps of which no length is noted
	Stops  sim.Time       // when the drill is stopped for the clock; 0 never
	Places sim.Time       // to what times are rounded; 1 s when 0
}

// Played is the drill as the truth has it: with its true stoves.
func (t Truth) Played(d *sim.Drill) *sim.Drill {
	out := *d
	out.Stoves = slices.Clone(d.Stoves)
	for i := range out.Stoves {
		out.Stoves[i].Efficiency = math.Min(1, out.Stoves[i].Efficiency*t.Efficient[i])
	}
	return &out
}

// Drill plays one evening of a truth and notes it down. D has the order and the
// conditions of that evening.
func Drill(d *sim.Drill, t Truth, h Habits, seed uint64, attempt int) (*timed.Drill, *sim.Timeline) {
	tl := fast.Compile(t.Played(d)).Worker().Timeline(t.Luck(d, seed, attempt))
	s := dice{rand.New(rand.NewPCG(seed, uint64(attempt)+1_000_000))}
	out := &timed.Drill{Order: d.Order, Arrival: sim.Never}
	for task := range d.Tasks {
		if h.Only != nil && !h.Only(task) {
			continue
		}
		if j, ok := note(tl, task, h, s); ok {
			out.Jobs = append(out.Jobs, j)
		}
	}
	return out, tl
}

func note(tl *sim.Timeline, task int, h Habits, s dice) (timed.Job, bool) {
	times := tl.Tasks[task]
	j := timed.Job{Task: task, Start: times.Start, End: times.End}
	j.Mishaps, j.MishapTime = tl.Luck.MishapsOf(tl.Drill, task, times.Start)
	if times.Start == sim.Never || h.Stops > 0 && times.Start >= h.Stops || times.End == sim.Never && h.Stops == 0 {
		return j, false
	}
	if h.Stops > 0 && times.End > h.Stops {
		j.End, j.Unfinished = h.Stops, true
		if times.Worked > h.Stops {
			j.Mishaps, j.MishapTime = 0, 0
		}
	}
	if j.Unfinished && j.Mishaps > 0 {
		j.MishapTime = sim.Never // nobody knows yet how long it will be
	}
	if j.Mishaps > 0 && s.even() < h.Missed {
		j.MishapTime = sim.Never
	}
	if h.Ends {
		j.Start = sim.Never
	} else {
		j.Stints = stints(tl, task, j.End)
	}
	h.round(&j)
	return j, true
}

// stints notes who was on a task from when to when.
func stints(tl *sim.Timeline, task int, until sim.Time) []timed.Stint {
	var out []timed.Stint
	for who, stretches := range tl.People {
		for _, one := range stretches {
			if one.What != sim.Working || one.Task != task || one.From >= until {
				continue
			}
			from, to := one.From, min(one.To, until)
			same := slices.IndexFunc(out, func(s timed.Stint) bool { return s.From == from && s.To == to })
			if same >= 0 {
				out[same].People = append(out[same].People, who)
				continue
			}
			out = append(out, timed.Stint{People: []int{who}, From: from, To: to})
		}
	}
	return out
}

func (h Habits) round(j *timed.Job) {
	to := h.Places
	if to == 0 {
		to = sim.Second
	}
	nearest := func(t sim.Time) sim.Time {
		if t == sim.Never {
			return t
		}
		return (t + to/2) / to * to
	}
	j.Start, j.End = nearest(j.Start), nearest(j.End)
	for i := range j.Stints {
		j.Stints[i].From, j.Stints[i].To = nearest(j.Stints[i].From), nearest(j.Stints[i].To)
	}
}
