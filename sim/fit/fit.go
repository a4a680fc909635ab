package fit

import (
	"math"

	"warmby/sim"
	"warmby/sim/draw"
)

// Options says how a log is fitted. The zero value is what most callers want.
type Options struct {
	Effort Effort // Usually when zero
	Seed   uint64
	Teams  bool // tell teams apart, each with a factor of its own on all work
}

func (o Options) complete() Options {
	if o.Effort == (Effort{}) {
		o.Effort = Usually
	}
	return o
}

// Fitted is what is known of a scenario after a log.
type Fitted struct {
	*Posterior
	Drill    *sim.Drill
	Evenings []Evening
	Replayed []*Replayed // of each evening, one of those that may be, see [Replay]
	Data     []Row       // of Replayed
	Factors  []Factor    // in the order of Model.Factors
	Learning Learning
	Chances  []Chance
	Stoves   []StoveFit
	// Through reports whether starts or crews had to follow from the drill.
	Through bool

	options Options
}

// Factor is something in which drills differ.
type Factor struct {
	Kind   FactorKind
	Values []float64 // of each drill
	Team   string    // of OneTeam
}

// FactorKind is a kind of factor.
type FactorKind int

// The kinds of factor.
const (
	InTheDark FactorKind = iota
	IndoorDrill
	LearningTeam
	LearningCurve // the logarithm of the how-manieth drill of its team it is
	OneTeam       // one team against the others
)

// Fit fits a drill of a scenario to evenings. The drill gives what the file says
// and is to be one of the scenario's orders; each evening has its own.
func Fit(d *sim.Drill, evenings []Evening, o Options) *Fitted {
	f := &Fitted{Drill: d, Evenings: evenings, options: o.complete()}
	f.Factors = f.conditions()
	if f.options.Teams {
		f.Factors = append(f.Factors, f.teams()...)
	}
	f.replay()
	f.Data = f.rows()
	f.learn()
	m := f.model()
	if f.Through {
		f.Posterior = f.through(m)
	} else {
		f.Posterior = Chain(m, f.Data, f.options.Effort, f.options.Seed, 0)
	}
	f.Chances = f.chances(func(int) bool { return true })
	f.Stoves = stoves(f)
	return f
}

func (f *Fitted) model() *Model {
	m := &Model{Laws: Laws(f.Drill), Drills: len(f.Evenings), Day: daySpread(f.Drill), People: f.named()}
	for _, x := range f.Factors {
		m.Factors = append(m.Factors, x.Values)
	}
	return m
}

// replay plays each evening again with usual lengths for what it lacks.
func (f *Fitted) replay() {
	for _, e := range f.Evenings {
		f.Through = f.Through || lacksStarts(e)
		f.Replayed = append(f.Replayed, Replay(e, quiet(e.Drill, draw.Usual(e.Drill))))
	}
}

// quiet takes mishaps out of a luck.
func quiet(d *sim.Drill, l *sim.Luck) *sim.Luck {
	for i := range d.Tasks {
		l.SetMishaps(i, 0, 0)
	}
	return l
}

// lacksStarts reports whether an evening has a task with a length of which start
// or crew must follow from the drill.
func lacksStarts(e Evening) bool {
	for i := range e.Timed.Jobs {
		j := &e.Timed.Jobs[i]
		t := &e.Drill.Tasks[j.Task]
		if t.Amount != nil && (j.Start == sim.Never || t.Worked() && len(j.Stints) == 0) {
			return true
		}
	}
	return false
}

// rows works out what each job of the evenings, as they were replayed, tells of the
// length of its task.
func (f *Fitted) rows() []Row {
	var rows []Row
	for i, e := range f.Evenings {
		played := f.Replayed[i]
		steps := e.Drill.Steps(played.Luck.Weather)
		for k := range e.Timed.Jobs {
			if r, _, ok := rowOf(e, k, played, steps); ok {
				r.Drill = i
				rows = append(rows, r)
			}
		}
	}
	return rows
}

// rowOf returns the row of one job; not ok when it tells nothing. The crew is
// that of the log, or that of the replay where the log has none. Rate is how fast
// the amount grows with the end, in milliseconds each millisecond.
func rowOf(e Evening, k int, played *Replayed, steps []sim.Step) (r Row, rate float64, ok bool) {
	j := e.Timed.Jobs[k]
	t := &e.Drill.Tasks[j.Task]
	unknown := j.Mishaps > 0 && j.MishapTime == sim.Never
	if t.Amount == nil || j.Unfinished && unknown {
		return Row{}, 0, false
	}
	r.Task = j.Task
	switch {
	case j.Unfinished:
		r.Kind = AtLeast
	case unknown:
		r.Kind = AtMost
	}
	started := j.Start != sim.Never
	if !started {
		if off(played, k) {
			return Row{}, 0, false
		}
		j.Start = played.Timeline.Tasks[j.Task].Start
	}
	until := j.End - mishapTime(&j)
	if j.Start == sim.Never || until <= j.Start {
		return Row{}, 0, false
	}
	ms, rate := float64(until-j.Start), 1.0
	if t.Worked() {
		crew := ofJob(&j)
		if len(crew) == 0 {
			crew = ofTimeline(played.Timeline, j.Task)
			if started {
				crew = moved(crew, played.Timeline.Tasks[j.Task], j.Start, j.End)
			}
		}
		ms, rate, r.Crew = amount(e.Drill, steps, j.Task, crew, until)
		if len(j.Stints) == 0 {
			r.Crew = nil // not named: no pace can be told
		}
	}
	r.Log = math.Log(ms)
	return r, rate, ms >= 1
}

// moved stretches a crew of a replay from its own times over those of the log.
func moved(crew []stint, t sim.TaskTimes, from, to sim.Time) []stint {
	if t.Start == sim.Never || t.End == sim.Never || t.End <= t.Start {
		return nil
	}
	by := float64(to-from) / float64(t.End-t.Start)
	for i := range crew {
		s := &crew[i]
		s.from = from + sim.Time(math.Round(float64(s.from-t.Start)*by))
		s.to = from + sim.Time(math.Round(float64(s.to-t.Start)*by))
	}
	return crew
}

// Unused returns the jobs of an evening that have no row although their task has
// a length: their times and the scenario contradict each other.
func (f *Fitted) Unused(evening int) []int {
	e := f.Evenings[evening]
	has := map[int]bool{}
	for _, r := range f.Data {
		if r.Drill == evening {
			has[r.Task] = true
		}
	}
	var out []int
	for k, j := range e.Timed.Jobs {
		if a := e.Drill.Tasks[j.Task].Amount; a != nil && a.Quantile(0.5) >= 1 && !has[j.Task] {
			out = append(out, k)
		}
	}
	return out
}

// At returns the factors of one evening, in the order of Factors.
func (f *Fitted) At(evening int) []float64 {
	var x []float64
	for _, one := range f.Factors {
		x = append(x, one.Values[evening])
	}
	return x
}
