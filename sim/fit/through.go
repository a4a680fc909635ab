package fit

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
	"warmby/sim/draw"
)

// through is a chain over the parameters and, at the same time, over all that a
// log with ends only does not have: the lengths of tasks that nobody timed, their
// mishaps and what came late. Each evening has a course, one way in which it may
// have gone: those lengths, played so that every end is where the log has it. A
// course is changed in part, played again, and kept by how likely the lengths are
// that the timed tasks then have (W. K. Hastings, Biometrika 57 (1970) 97-109).
// The parameters follow from the courses by Gibbs sampling, as in [Chain], and the
// courses from the parameters, turn by turn (M. A. Tanner and W. H. Wong, Journal
// of the American Statistical Association 82 (1987) 528-540).
//
// Were these lengths drawn without a look at what they make of the timed ones,
// a delay would count twice: in the task that was timed, and in those before it.
type through struct {
	f       *Fitted
	m       *Model
	lawOf   map[int]int
	st      *state
	courses []course
}

// course is one way in which an evening may have gone.
type course struct {
	Evening
	drill  int
	player *player
	luck   *sim.Luck // with the lengths of what was not timed
	played *Replayed
	rows   []Row     // of each law: Open where the log tells nothing
	rates  []float64 // of each law, how fast its row grows with its end
}

// What is taken for likely of ends, from memory: one in a hundred is noted wrong,
// anywhere in three hours. It is a density of milliseconds.
var wrongEnd = math.Log(0.01 / float64(3*sim.Hour))

// through fits the parameters together with all that the log does not have. It
// starts at the usual lengths of the file.
func (f *Fitted) through(m *Model) *Posterior {
	t := &through{f: f, m: m, lawOf: m.lawOf()}
	for i, e := range f.Evenings {
		c := course{Evening: e, drill: i, player: newPlayer(e), luck: quiet(e.Drill, draw.Usual(e.Drill))}
		t.settle(&c, f.Replayed[i])
		t.courses = append(t.courses, c)
	}
	t.st = newState(m, t.rows(), f.options.Seed, 0)
	t.each(t.begin)
	t.st.read(t.rows())
	p := t.run(f.options.Effort.turns(len(f.Evenings)))
	for i := range t.courses {
		f.Replayed[i] = t.courses[i].played
	}
	f.Data = f.rows()
	return p
}

// each does something with every course, side by side: given the parameters, no
// evening tells of another.
func (t *through) each(do func(*course)) {
	sideBySide(len(t.courses), func(i int) { do(&t.courses[i]) })
}

// sideBySide does something for each of n drills at the same time.
func sideBySide(n int, do func(i int)) {
	var all sync.WaitGroup
	for i := range n {
		all.Go(func() { do(i) })
	}
	all.Wait()
}

// rows returns those of all courses.
func (t *through) rows() []Row {
	var rows []Row
	for i := range t.courses {
		rows = append(rows, t.courses[i].rows...)
	}
	return rows
}

// take plays a course, so that its luck has the lengths of the log.
func (t *through) take(c *course) { t.settle(c, c.player.replay(c.luck)) }

// settle works out the rows of a course that was played.
func (t *through) settle(c *course, played *Replayed) {
	c.played = played
	c.rows, c.rates = make([]Row, len(t.m.Laws)), make([]float64, len(t.m.Laws))
	for i, l := range t.m.Laws {
		c.rows[i] = Row{Task: l.Task, Drill: c.drill, Kind: Open, Log: math.Log(float64(max(1, c.luck.Amount[l.Task])))}
	}
	steps := c.Drill.Steps(c.played.Luck.Weather)
	for k := range c.Timed.Jobs {
		i, ok := t.lawOf[c.Timed.Jobs[k].Task]
		if !ok {
			continue
		}
		if r, rate, ok := rowOf(c.Evening, k, c.played, steps); ok {
			r.Drill = c.drill
			c.rows[i], c.rates[i] = r, rate
		}
	}
}

// run goes through turns: sweeps of the parameters, then a change of each course.
func (t *through) run(n turns) *Posterior {
	p := &Posterior{Model: t.m}
	for turn := range n.warmup + n.keep {
		for range n.sweeps {
			t.st.sweep()
			if turn >= n.warmup {
				p.Draws = append(p.Draws, t.st.draw())
			}
		}
		t.each(func(c *course) {
			t.change(c, turn, newSource(t.f.options.Seed, 1_000_000+turn*len(t.courses)+c.drill))
		})
		t.st.read(t.rows())
	}
	p.Rows = t.timed()
	return p
}

// timed counts the rows of each law that the log tells of.
func (t *through) timed() []int {
	n := make([]int, len(t.m.Laws))
	for _, c := range t.courses {
		for i, r := range c.rows {
			if r.Kind != Open {
				n[i]++
			}
		}
	}
	return n
}

// change proposes another course of an evening and takes it or not: by turns one
// with some lengths drawn anew, and one with another day.
func (t *through) change(c *course, turn int, s source) {
	next, day, before := *c, t.st.day[c.drill], t.likely(c)
	if turn%2 == 0 {
		next.luck = t.propose(c, s)
	} else {
		next.luck = t.stretch(c, stretches[turn/2%len(stretches)]*s.normal())
	}
	t.take(&next)
	if math.Log(s.uniform()) < t.likely(&next)-before {
		*c = next
	} else {
		t.st.day[c.drill] = day
	}
}

// begin looks for the day with which an evening is the likeliest by the file. From
// lengths that are all too short the chain would be long in finding out that it was
// not each timed task that took longer.
func (t *through) begin(c *course) {
	best, most, day := *c, math.Inf(-1), 0.0
	steps, wide := 16, 0.06
	if len(t.courses) > 40 { // so many tell more of each other
		steps, wide = 6, 0.16
	}
	for step := range steps {
		by := wide * float64(step-steps/3)
		t.st.day[c.drill] = 0
		next := *c
		next.luck = t.stretch(c, by)
		t.take(&next)
		if x := t.likely(&next); x > most {
			best, most, day = next, x, by
		}
	}
	*c, t.st.day[c.drill] = best, day
}

// stretches are by how much a day is changed, as standard deviations of the
// logarithm.
var stretches = []float64{0.03, 0.1, 0.3}

// stretch changes the day of an evening and all work that was not timed with it,
// which is as likely given the day as it was before.
func (t *through) stretch(c *course, by float64) *sim.Luck {
	luck := clone(c.luck)
	t.st.day[c.drill] += by
	for k, r := range c.rows {
		if r.Kind == Open && t.m.Laws[k].Work {
			luck.Amount[r.Task] = max(1, sim.Milliseconds(math.Exp(by)*float64(luck.Amount[r.Task])))
		}
	}
	return luck
}

// propose draws a part of what was not timed anew from what is known of it, mostly
// little of it. Only what the timed tasks make of it has then to be weighed.
func (t *through) propose(c *course, s source) *sim.Luck {
	luck := clone(c.luck)
	share := math.Pow(s.uniform(), 3)
	for k, r := range c.rows {
		if r.Kind == Open && s.uniform() < share {
			mean, sd := t.st.mean(k, r)-t.st.task[k], math.Sqrt(t.st.openSpread(k))
			luck.Amount[r.Task] = max(1, sim.Milliseconds(math.Exp(mean+sd*s.normal())))
		}
	}
	if s.uniform() < 0.25 {
		t.untimed(c, luck, s)
	}
	return luck
}

// untimed draws what comes late, and the mishaps of tasks that were not timed.
func (t *through) untimed(c *course, luck *sim.Luck, s source) {
	fresh := draw.Run(c.Drill, t.f.options.Seed, int(s.Uint64()>>34))
	luck.Person, luck.Load = fresh.Person, fresh.Load
	for _, r := range c.rows {
		if r.Kind == Open { // a timed one has those of the log
			luck.Mishaps[r.Task], luck.Mishap[r.Task] = fresh.Mishaps[r.Task], fresh.Mishap[r.Task]
			if luck.MishapThen != nil {
				luck.MishapsThen[r.Task], luck.MishapThen[r.Task] = fresh.MishapsThen[r.Task], fresh.MishapThen[r.Task]
			}
		}
	}
}

// likely is the logarithm of how likely the ends of an evening are, by its course
// and the parameters as they are.
func (t *through) likely(c *course) float64 {
	sum := float64(len(c.played.Off)) * wrongEnd
	for k, r := range c.rows {
		sd := math.Sqrt(t.st.square[k])
		z := (r.Log - t.st.mean(k, r)) / sd
		switch r.Kind {
		case Exact:
			sum += -0.5*z*z - math.Log(sd) - r.Log + math.Log(math.Max(c.rates[k], 1e-3)) - 0.5*math.Log(2*math.Pi)
		case AtLeast:
			sum += math.Log(math.Max(distuv.UnitNormal.Survival(z), 1e-12))
		case AtMost:
			sum += math.Log(math.Max(distuv.UnitNormal.CDF(z), 1e-12))
		}
	}
	z := (t.st.day[c.drill] - t.st.shift[works]) / t.st.days
	return sum - 0.5*z*z + c.heat()
}

// heat is the same of melts and warm-ups, which have no law: their stove may be
// better or worse than the file's.
func (c *course) heat() float64 {
	sum := 0.0
	for k := range c.Timed.Jobs {
		if x, took, ok := againstStove(c.Evening, c.played, k); ok {
			const sd = stoveBefore
			z := x / sd
			sum += -0.5*z*z - math.Log(sd*math.Sqrt(2*math.Pi)) - math.Log(float64(took))
		}
	}
	return sum
}

// againstStove returns the logarithm of how long a melt or a warm-up took over
// what the file's stove takes, and how long that was; not ok for other tasks, and
// where it does not tell.
func againstStove(e Evening, played *Replayed, job int) (x float64, took sim.Time, ok bool) {
	j := &e.Timed.Jobs[job]
	t := &e.Drill.Tasks[j.Task]
	start := played.Timeline.Tasks[j.Task].Start
	if t.Kind != sim.Melt && t.Kind != sim.Warm || j.Unfinished || j.Mishaps > 0 || start == sim.Never || start >= j.End || off(played, job) {
		return 0, 0, false
	}
	stove := stoveOf(t)
	took = j.End - start
	hotter := played.Drill.Stoves[stove].Power / e.Drill.Stoves[stove].Power
	own := max(sim.Second, took-played.Luck.Mishap[j.Task])
	return math.Log(float64(took)/float64(own)) - math.Log(hotter), took, true
}
