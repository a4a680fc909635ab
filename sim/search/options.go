package search

import (
	"slices"

	"warmby/sim"
)

// Aim is what is looked for. It may be a milestone to be reached soon, by a
// statistic of many runs (with usual values only, by the one moment). Or it may be a
// goal to be met in as many evenings as can be; of orders as good in that, the one
// with the soonest mean finish wins.
type Aim struct {
	Goal      Goal // the zero value for a milestone
	Milestone int  // of the drill; for Reached only
	Statistic Statistic
}

// InTime asks that a milestone be reached by a moment with some odds. With
// usual values only, it must simply be reached by then.
type InTime struct {
	Milestone int
	By        sim.Time
	Odds      float64 // share of runs, over 0 up to 1
}

// Options says what to look for and how hard. The zero value looks for evenings in
// which all is well and, in a drill without targets and without an account of cold,
// for the soonest finish on average, with the default effort.
type Options struct {
	// Orders are those that the scenario has, the first the one to beat; none
	// for tasks in file order.
	Orders []sim.Order
	// Aims; none for AllWell or the mean finish, see above. For several the Pareto
	// front is looked for. Their sequence makes no difference.
	Aims    []Aim
	InTime  []InTime
	AtLeast []AtLeast
	// Cases are further drills in which an order is to do well. An order is as good
	// as in its latest case, the drill itself included; equals are told apart by the
	// mean over cases. What is asked for is asked in every case.
	Cases []Case
	// ColdLimit asks that nobody pass the cold limit in nine evenings of ten, unless
	// AtLeast says how often.
	ColdLimit bool

	// Evaluations is how many times the drill may be played in search; 0 for
	// DefaultEvaluations. Judging comes on top. A schedule of a drill in which only
	// lengths, tools and people count is one too.
	Evaluations int
	// Runs is on how many fresh runs orders are judged; 0 for usual values
	// only.
	Runs    int
	Seed    uint64 // of the fresh runs, which are runs 0 on; the search has others
	Workers int    // the result does not depend on it
	// Progress, if not nil, is told now and then how much of the search is done
	// and the best moment so far of the first aim. It is called from one
	// goroutine at a time.
	Progress func(done, of int, best sim.Time)
}

// DefaultEvaluations is how many times a drill is played unless said otherwise.
const DefaultEvaluations = 150_000

// ByMeans reports whether an aim is when a milestone is reached on average: a mean
// does not know what few runs see too seldom.
func (r *Result) ByMeans() bool {
	return slices.ContainsFunc(r.Aims, func(a Aim) bool { return a.Goal == Reached && a.Statistic == Mean })
}

// Result is what a search found.
type Result struct {
	Drill *sim.Drill // without an order
	Aims  []Aim      // sorted: shares of evenings first, then by milestone
	// Before is the order to beat.
	Before Found
	// Known is the best of the scenario's own orders in the first aim: what was found
	// is worth what it gains on that.
	Known Found
	// Orders holds the order found and all that cannot be told from it, the best
	// first; with several aims, the Pareto front. Of orders as good in the aim, the
	// one that is easiest to remember for those who know the scenario's own is
	// first. The order to beat is among them when nothing better was found.
	Orders []Found
	// Wins are the changes to one of the scenario's own orders, WinsOn, that win
	// most on the way to the best; with one aim only.
	Wins   []Win
	WinsOn string
	// Bound is what no order can beat, by aim: the same statistic of the bounds
	// of the fresh runs or, with usual values only, of their bound. Milliseconds, or
	// the share of evenings that every order misses.
	Bound []float64
	// BoundLow and BoundHigh are its 95 % interval; with usual values only, and
	// where it is infinite, the bound itself.
	BoundLow, BoundHigh []float64
	// Cases says of the drill itself, and of each case asked for, what no order
	// can beat in it.
	Cases []CaseResult
	// UsualBound is the same for every milestone with usual values.
	UsualBound []sim.Time
	// Unmet is what the best order still does not keep to.
	Unmet []Unmet

	Evaluations int  // drills played in the search
	Runs        int  // fresh runs of each order judged; 0 with usual values only
	Judged      int  // how many orders were judged on them
	Interrupted bool // the context was done before the search was
}

// Found is an order with what it gives.
type Found struct {
	Order sim.Order
	// Known is the name of the scenario's own order that it is, or "".
	Known string
	// Milestones, Start and End are those with usual values.
	Milestones []sim.Time
	Start, End []sim.Time
	// Value is the statistic of each aim on the fresh runs, in milliseconds;
	// infinite when runs never get there. With usual values only, the moment. Of a
	// goal it is the share of evenings in which it is missed.
	Value []float64
	// Evenings says how often an evening goes as it should, in the worst case.
	Evenings Evenings
	// People holds, by person, the tasks that the person works on with usual
	// values, in sequence.
	People [][]int
	// Burden says how much there is to remember of the order.
	Burden Burden
	// Turned are pairs of tasks that all the scenario's own orders have the other
	// way round. "Must this come first? Then write it after."
	Turned []Pair
	// Gain is how much sooner than the order to beat it is, by aim; of a goal, in
	// what share of evenings more it is met. Over is the same against the best of
	// the scenario's own orders, see Known of [Result].
	Gain, Over []Gain
	// Behind is how much later than the best it is, by aim.
	Behind []Gain

	// Cases is what it gives in each case of the result; nothing in those left
	// out.
	Cases []CaseFound

	index int // among those judged
}

// Evenings says in what share of the fresh runs an evening goes as it should. With
// usual values only, shares are 0 or 1.
type Evenings struct {
	InTime                          []float64 // by milestone: its target is met; NaN without one
	AllTargets, NobodyCold, AllWell float64
	Cold                            bool // whether there is an account of cold
}

// Gain is a difference in milliseconds, or in shares of evenings, with its 95 %
// interval, from fresh runs. With usual values only there is no interval.
type Gain struct {
	Value     float64
	Low, High float64
	// Told reports whether the difference is more than luck explains, at 95 %,
	// which fewer than [stats.FewRuns] runs never tell:
	// a gain by itself, being behind with regard to all orders judged (Holm).
	Told bool
	Why  string // why there is no difference; "" when there is
}

// Unmet is something asked for that the best order found does not keep to.
type Unmet struct {
	InTime  *InTime  // or
	AtLeast *AtLeast // which of the two it is
	// At is the moment that was reached with the odds asked; Least is the
	// moment before which no order can reach it with usual values.
	At, Least sim.Time
	Share     float64 // of runs in time
	Case      string  // the case in which it is; "" for the drill itself
	Person    string  // who loses the most heat with usual values, where cold has a say
	Peak      float64 // Wh/m2
}
