package draw

import (
	"slices"
	"sync"

	"warmby/sim"
)

// Usual returns the luck of a drill in which nothing is drawn: usual values,
// day factor 1, mishaps only where they are certain (then as often as they
// may be), and the likeliest weather, the first of equals.
func Usual(d *sim.Drill) *sim.Luck {
	l := new(sim.Luck)
	NewSampler(d).Usual(l)
	return l
}

// Run returns the luck of one run of a drill under a seed.
func Run(d *sim.Drill, seed uint64, run int) *sim.Luck {
	l := new(sim.Luck)
	NewSampler(d).Run(seed, run, l)
	return l
}

// Sampler draws the luck of one drill again and again. It may be shared.
type Sampler struct {
	tables        sync.Once
	tasks         []taskLaws
	people, loads []law
	day           law
	ownDays       []law     // by person; nil when nobody has a day of his own
	hangs         bool      // whether the chance of some mishap hangs on a condition
	paces         []int64   // by person
	weather       []float64 // weights
	weatherKey    Key
}

// law is a quantity with its stream.
type law struct {
	of    sim.Distribution // nil when the quantity is always value
	slope *triangular      // the same, told apart because it is asked so often
	table *table
	value float64
	key   Key
}

type taskLaws struct {
	amount law
	byDay  bool // whether the day's factor counts
	mishap *sim.Mishap
	chance Key
	adds   law
}

// NewSampler returns a sampler for a drill.
func NewSampler(d *sim.Drill) *Sampler {
	s := &Sampler{
		tasks:      make([]taskLaws, len(d.Tasks)),
		people:     make([]law, len(d.People)),
		loads:      make([]law, len(d.Loads)),
		day:        lawOf(d.Day, 1, KeyOf("", ForDay)),
		weatherKey: KeyOf("", ForWeather),
	}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		s.tasks[i] = taskLaws{
			amount: lawOf(t.Amount, 0, KeyOf(t.Name, ForWork)),
			byDay:  t.FollowsDay(),
			mishap: t.Mishap,
		}
		if t.Mishap != nil {
			s.hangs = s.hangs || t.Mishap.When != nil
			s.tasks[i].chance = KeyOf(t.Name, ForMishap)
			s.tasks[i].adds = lawOf(t.Mishap.Adds, 0, KeyOf(t.Name, ForMishapAdds))
		}
	}
	for i, p := range d.People {
		s.people[i] = lawOf(p.Arrives, 0, KeyOf(p.Name, ForArrives))
	}
	s.readOwnDays(d)
	for i, l := range d.Loads {
		s.loads[i] = lawOf(l.Arrives, 0, KeyOf(l.Name, ForLoadArrives))
	}
	for _, w := range d.Weather {
		s.weather = append(s.weather, max(0, w.Weight))
	}
	return s
}

// readOwnDays takes in the days of people, if somebody has one.
func (s *Sampler) readOwnDays(d *sim.Drill) {
	if !slices.ContainsFunc(d.People, func(p sim.Person) bool { return p.Day != nil }) {
		return
	}
	for _, p := range d.People {
		s.ownDays = append(s.ownDays, lawOf(p.Day, 1, KeyOf(p.Name, ForOwnDay)))
		s.paces = append(s.paces, p.Pace)
	}
}

// pace fills in the paces of a run, where somebody has a day of his own.
func (s *Sampler) pace(l *sim.Luck, factor func(day *law) float64) {
	l.Pace = l.Pace[:0]
	for i := range s.ownDays {
		l.Pace = append(l.Pace, sim.PaceBy(s.paces[i], factor(&s.ownDays[i])))
	}
	if s.ownDays == nil {
		l.Pace = nil
	}
}

func lawOf(d sim.Distribution, otherwise float64, key Key) law {
	switch d := d.(type) {
	case nil:
		return law{value: otherwise, key: key}
	case fixed:
		return law{value: float64(d), key: key}
	}
	l := law{of: d, value: d.Usual(), key: key}
	l.slope, _ = d.(*triangular)
	return l
}

// tabulate builds the tables of all laws that have one, which playing with
// usual values does without.
func (s *Sampler) tabulate() {
	s.day.tabulate()
	for i := range s.tasks {
		s.tasks[i].amount.tabulate()
		s.tasks[i].adds.tabulate()
	}
	for i := range s.people {
		s.people[i].tabulate()
	}
	for i := range s.loads {
		s.loads[i].tabulate()
	}
	for i := range s.ownDays {
		s.ownDays[i].tabulate()
	}
}

func (l *law) tabulate() {
	switch d := l.of.(type) {
	case *pert:
		d.once.Do(d.build)
		if d.low >= 0 { // else Quantile draws the lower end together
			l.table = d.table
		}
	case *logNormal:
		d.once.Do(d.build)
		l.table = d.table
	}
}

// draw returns draw n of a law's stream, turned by its distribution.
func (l *law) draw(from Start, n int) float64 {
	switch {
	case l.of == nil:
		return l.value
	case l.table != nil:
		return l.table.quantile(from.Uniform(l.key, n))
	case l.slope != nil:
		return l.slope.Quantile(from.Uniform(l.key, n))
	}
	return l.of.Quantile(from.Uniform(l.key, n))
}

// Usual fills in the luck in which nothing is drawn, reusing its slices.
func (s *Sampler) Usual(l *sim.Luck) {
	s.size(l)
	for i := range s.tasks {
		t := &s.tasks[i]
		l.Amount[i], l.Mishaps[i], l.Mishap[i] = sim.Milliseconds(t.amount.value), 0, 0
		if t.mishap != nil {
			t.meet(l, i, t.certain)
		}
	}
	for i := range s.people {
		l.Person[i] = sim.Milliseconds(s.people[i].value)
	}
	for i := range s.loads {
		l.Load[i] = sim.Milliseconds(s.loads[i].value)
	}
	s.pace(l, func(day *law) float64 { return day.value })
	for i, w := range s.weather {
		if w > s.weather[l.Weather] {
			l.Weather = i
		}
	}
}

// Run fills in the luck of one run under a seed, reusing its slices.
func (s *Sampler) Run(seed uint64, run int, l *sim.Luck) {
	s.tables.Do(s.tabulate)
	s.size(l)
	from := StartOf(seed, uint64(run))
	day := s.day.draw(from, 0)
	clear(l.Mishaps)
	clear(l.Mishap)
	amounts := l.Amount[:len(s.tasks)]
	for i := range s.tasks {
		t := &s.tasks[i]
		amount := t.amount.value
		if t.amount.slope != nil { // so often asked that a call less tells
			amount = t.amount.slope.Quantile(from.Uniform(t.amount.key, 0))
		} else if t.amount.of != nil {
			amount = t.amount.draw(from, 0)
		}
		if t.byDay {
			amount = float64(amount * day)
		}
		amounts[i] = sim.Milliseconds(amount)
		if t.mishap != nil {
			t.meet(l, i, func(chance float64) (int, sim.Time) { return t.mishaps(from, chance) })
		}
	}
	for i := range s.people {
		l.Person[i] = sim.Milliseconds(s.people[i].draw(from, 0))
	}
	for i := range s.loads {
		l.Load[i] = sim.Milliseconds(s.loads[i].draw(from, 0))
	}
	s.pace(l, func(day *law) float64 { return day.draw(from, 0) })
	if len(s.weather) > 1 {
		l.Weather = pick(s.weather, from.Uniform(s.weatherKey, 0))
	}
}

// most returns how often a mishap may happen.
func (t *taskLaws) most() int {
	if !t.mishap.Again {
		return 1
	}
	return max(1, t.mishap.AtMost)
}

// meet fills in the mishaps of a task: with its chance and, where that hangs on a
// condition, with that of the condition. Both meet the same numbers.
func (t *taskLaws) meet(l *sim.Luck, i int, with func(chance float64) (int, sim.Time)) {
	l.Mishaps[i], l.Mishap[i] = with(t.mishap.Chance)
	switch {
	case l.MishapThen == nil:
	case t.mishap.When == nil:
		l.MishapsThen[i], l.MishapThen[i] = l.Mishaps[i], l.Mishap[i]
	default:
		l.MishapsThen[i], l.MishapThen[i] = with(t.mishap.Then)
	}
}

// certain returns what is usual of mishaps with a chance: none but certain ones.
func (t *taskLaws) certain(chance float64) (times int, adds sim.Time) {
	if chance < 1 {
		return 0, 0
	}
	// As float64 the product cannot overflow.
	return t.most(), sim.Milliseconds(float64(t.most()) * float64(sim.Milliseconds(t.adds.value)))
}

// mishaps draws how often a mishap happens and what all of them add, each
// addition rounded by itself.
func (t *taskLaws) mishaps(from Start, chance float64) (times int, adds sim.Time) {
	for most := t.most(); times < most; times++ {
		if from.Uniform(t.chance, times) >= chance {
			break
		}
		adds += sim.Milliseconds(t.adds.draw(from, times))
	}
	return times, adds
}

// pick returns the index in whose share of all weights u falls, 0 < u < 1.
func pick(weights []float64, u float64) int {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	at, last := float64(u*sum), 0
	for i, w := range weights {
		if w <= 0 {
			continue
		}
		if at < w {
			return i
		}
		at -= w
		last = i
	}
	return last
}

// size gives the slices of a luck their lengths.
func (s *Sampler) size(l *sim.Luck) {
	l.Amount = sized(l.Amount, len(s.tasks))
	l.Mishap = sized(l.Mishap, len(s.tasks))
	l.Mishaps = sized(l.Mishaps, len(s.tasks))
	l.Person = sized(l.Person, len(s.people))
	l.Load = sized(l.Load, len(s.loads))
	l.Weather = 0
	if !s.hangs {
		l.MishapThen, l.MishapsThen = nil, nil
		return
	}
	l.MishapThen, l.MishapsThen = sized(l.MishapThen, len(s.tasks)), sized(l.MishapsThen, len(s.tasks))
	clear(l.MishapThen)
	clear(l.MishapsThen)
}

func sized[T any](of []T, n int) []T {
	if cap(of) < n {
		return make([]T, n)
	}
	return of[:n]
}
