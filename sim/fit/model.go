package fit

import (
	"math"
)

// Model is what is fitted: the laws of the file, and how much besides the tasks
// is to be told apart.
type Model struct {
	Laws   []Law
	Drills int
	Day    float64 // the file's spread of the day's factor; 0 when it gives none
	// Factors holds, for each factor, its value in each drill, such as 1 in the
	// dark and 0 in the light; the logarithm of lengths of work is taken to be
	// linear in it.
	Factors [][]float64
	// People is how many people have a pace of their own; 0 fits none.
	People int
}

// lawOf returns the index of the law of each task that has one.
func (m *Model) lawOf() map[int]int {
	of := map[int]int{}
	for i, l := range m.Laws {
		of[l.Task] = i
	}
	return of
}

// What is taken for likely before anything is timed, all from memory: how far a
// team is from its file in all its work, how far single tasks are beyond that,
// how far a condition or a person's pace goes.
const (
	shiftBefore   = 0.35 // standard deviation of the logarithm
	factorBefore  = 0.3
	paceBefore    = 0.15
	betweenBefore = 0.2 // the scale of the spread of tasks around the shift
	dayAtLeast    = 0.1 // the scale of the day's spread where the file gives less
)

// grid holds spreads from 0.5 % to 150 %, evenly by their logarithm.
var grid = func() []float64 {
	g := make([]float64, 48)
	for i := range g {
		g[i] = float64(0.005 * math.Pow(300, float64(i)/float64(len(g)-1)))
	}
	return g
}()

// weights are how many drills the file's spread of a task may be worth.
var weights = []int{4, 6, 8, 12, 16, 24, 32, 48, 64}

// state is where a chain is.
type state struct {
	m    *Model
	laws map[int]int // see lawOf
	s    source
	rows []Row
	of   [][]int // rows of each task
	in   [][]int // rows of work of each drill

	log    []float64 // of each row; drawn where it is censored
	task   []float64 // how far each task is from the file, beyond the shift
	square []float64 // of each task's spread
	day    []float64 // of each drill, the shift of work included
	factor []float64
	pace   []float64
	base   []float64 // what factors and paces add to each row

	shift   [2]float64 // of fixed times and of work
	between float64    // spread of tasks around the shift
	days    float64    // spread of days
	wider   float64    // square of spreads over that of the file
	worth   int        // index in weights
	scratch []float64
	law     []int       // of each row
	open    [][]openRow // of each drill
}

// openRow is a length that a task which was not timed may have had. Such tasks
// tell of days and shifts, and their own deviations are left out of the chain: it
// could not get away from where they happen to be.
type openRow struct {
	law  int
	over float64 // logarithm of it over the file's level, factors taken out
}

// openSpread is the square of the spread of a length of a task that was not timed.
func (st *state) openSpread(law int) float64 { return st.square[law] + st.between*st.between }

// opened adds what the open rows of one drill tell of what a group has in common,
// over what is told of it already.
func (st *state) opened(group, drill int, told float64) (sum, p float64) {
	for _, o := range st.open[drill] {
		if groupOf(st.m.Laws[o.law]) == group {
			v := st.openSpread(o.law)
			sum, p = sum+(o.over-told)/v, p+1/v
		}
	}
	return sum, p
}

func newState(m *Model, rows []Row, seed uint64, stream int) *state {
	k := len(m.Laws)
	st := &state{
		m: m, laws: m.lawOf(), s: newSource(seed, stream), of: make([][]int, k), in: make([][]int, m.Drills), open: make([][]openRow, m.Drills),
		task: make([]float64, k), square: make([]float64, k), day: make([]float64, m.Drills),
		factor: make([]float64, len(m.Factors)), pace: make([]float64, m.People),
		between: 0.2, days: math.Max(m.Day, dayAtLeast), wider: 1, worth: 3,
	}
	for i, l := range m.Laws {
		st.square[i] = l.Spread * l.Spread
	}
	st.read(rows)
	return st
}

// read takes other rows for those that are known; open ones tell nothing.
func (st *state) read(rows []Row) {
	for i := range st.of {
		st.of[i] = st.of[i][:0]
	}
	for d := range st.in {
		st.in[d], st.open[d] = st.in[d][:0], st.open[d][:0]
	}
	st.rows, st.law, st.log, st.base = st.rows[:0], st.law[:0], st.log[:0], st.base[:0]
	for _, r := range rows {
		i, ok := st.laws[r.Task]
		if !ok {
			continue
		}
		if r.Kind == Open {
			st.open[r.Drill] = append(st.open[r.Drill], openRow{i, r.Log - st.m.Laws[i].Level - st.baseOf(r)})
			continue
		}
		at := len(st.rows)
		st.rows, st.law, st.log, st.base = append(st.rows, r), append(st.law, i), append(st.log, r.Log), append(st.base, st.baseOf(r))
		st.of[i] = append(st.of[i], at)
		if st.m.Laws[i].Work {
			st.in[r.Drill] = append(st.in[r.Drill], at)
		}
	}
}

// baseOf returns what factors and paces add to a row.
func (st *state) baseOf(r Row) float64 {
	sum := 0.0
	for j, x := range st.m.Factors {
		sum += st.factor[j] * x[r.Drill]
	}
	for _, c := range r.Crew {
		if c.Person < len(st.pace) {
			sum -= st.pace[c.Person] * c.Share
		}
	}
	return sum
}

// mean returns what a row of a law would be but for this time's own deviation.
func (st *state) mean(law int, r Row) float64 {
	l := st.m.Laws[law]
	if l.Work {
		return l.Level + st.task[law] + st.day[r.Drill] + st.baseOf(r)
	}
	return l.Level + st.task[law] + st.shift[fixedTimes]
}

// around returns what a row would be but for its task's own deviation.
func (st *state) around(at int) float64 {
	l := st.m.Laws[st.law[at]]
	if l.Work {
		return l.Level + st.day[st.rows[at].Drill] + st.base[at]
	}
	return l.Level + st.shift[fixedTimes]
}

// sweep goes once through all that is not known, each drawn given the rest
// (Gibbs sampling: S. Geman and D. Geman, IEEE Trans. PAMI 6 (1984) 721-741).
func (st *state) sweep() {
	st.fillIn()
	st.tasks()
	st.drills()
	for _, g := range []int{fixedTimes, works} {
		st.slide(g)
	}
	st.shifts()
	st.factors()
	st.paces()
	st.days = st.spreadOf(st.ofDays(), math.Max(st.m.Day, dayAtLeast))
	st.between = st.spreadOf(st.task, betweenBefore)
	st.spreads()
}

// fillIn draws censored rows from what is left of their law.
func (st *state) fillIn() {
	for at, r := range st.rows {
		if r.Kind == Exact {
			continue
		}
		i := st.law[at]
		mean, sd := st.around(at)+st.task[i], math.Sqrt(st.square[i])
		if r.Kind == AtLeast {
			st.log[at] = mean + sd*st.s.above((r.Log-mean)/sd)
		} else {
			st.log[at] = mean - sd*st.s.above((mean-r.Log)/sd)
		}
	}
}

// given draws from what is known of a value that is normal around a mean, after
// observations of it whose precisions add up to p, and they times these to sum.
func (st *state) given(mean, spread, sum, p float64) float64 {
	all := p + 1/(spread*spread)
	return (sum+mean/(spread*spread))/all + st.s.normal()/math.Sqrt(all)
}

func (st *state) tasks() {
	for i := range st.task {
		sum, p := 0.0, 1/st.square[i]
		for _, at := range st.of[i] {
			sum += st.log[at] - st.around(at)
		}
		st.task[i] = st.given(0, st.between, sum*p, float64(len(st.of[i]))*p)
	}
}

func (st *state) drills() {
	for d := range st.day {
		sum, p := st.opened(works, d, 0)
		for _, at := range st.in[d] {
			i := st.law[at]
			sum += (st.log[at] - st.around(at) + st.day[d] - st.task[i]) / st.square[i]
			p += 1 / st.square[i]
		}
		st.day[d] = st.given(st.shift[works], st.days, sum, p)
	}
}

// slide moves the shift of a group, with its days, one way and its tasks the
// other, which no row can tell apart: without it the chain would creep.
func (st *state) slide(group int) {
	sum, n := 0.0, 0.0
	for i, l := range st.m.Laws {
		if groupOf(l) == group {
			sum, n = sum+st.task[i], n+1
		}
	}
	p := 1 / (st.between * st.between)
	sum, n = sum*p, n*p
	for d := range st.open {
		told := st.shift[group]
		if group == works {
			told = st.day[d]
		}
		more, q := st.opened(group, d, told)
		sum, n = sum+more, n+q
	}
	h := st.given(-st.shift[group], shiftBefore, sum, n)
	for i, l := range st.m.Laws {
		if groupOf(l) == group {
			st.task[i] -= h
		}
	}
	st.shift[group] += h
	if group == works {
		for d := range st.day {
			st.day[d] += h
		}
	}
}

func (st *state) shifts() {
	sum, p := 0.0, 1/(st.days*st.days)
	for _, c := range st.day {
		sum += c
	}
	st.shift[works] = st.given(0, shiftBefore, sum*p, float64(len(st.day))*p)
	sum, p = 0, 0
	for d := range st.open {
		more, q := st.opened(fixedTimes, d, 0)
		sum, p = sum+more, p+q
	}
	for at, i := range st.law {
		if !st.m.Laws[i].Work {
			sum += (st.log[at] - st.m.Laws[i].Level - st.task[i]) / st.square[i]
			p += 1 / st.square[i]
		}
	}
	st.shift[fixedTimes] = st.given(0, shiftBefore, sum, p)
}

// The groups that have a shift of their own.
const (
	fixedTimes = iota
	works
)

func groupOf(l Law) int {
	if l.Work {
		return works
	}
	return fixedTimes
}

// ofDays returns what is left of each drill's day beyond the shift.
func (st *state) ofDays() []float64 {
	st.scratch = st.scratch[:0]
	for _, c := range st.day {
		st.scratch = append(st.scratch, c-st.shift[works])
	}
	return st.scratch
}
