package draw

import "warmby/sim"

// Factor is one number that is drawn in a run, and what is made of it. A drill
// has the same factors in every run and under every order.
type Factor struct {
	Name    string // of the task, person or load; "" for day and weather
	Purpose string // one of [ForWork] and its like
	N       int    // which draw of the stream, from 0 on: a mishap that may happen again has several
	// At is the index of the task, person or load; 0 for day and weather.
	At int

	key     Key
	law     *law
	chance  float64
	weights []float64
}

// Factors lists all that is drawn, each once and always in this sequence: the
// day, the weather, then task by task its length and its mishaps, when people come,
// their own days, and when loads come. What is the same in every run is none of them.
func (s *Sampler) Factors(d *sim.Drill) []Factor {
	var list []Factor
	add := func(f Factor) {
		if f.law == nil || f.law.of != nil {
			list = append(list, f)
		}
	}
	add(Factor{Purpose: ForDay, key: s.day.key, law: &s.day})
	if s.cases() > 1 {
		add(Factor{Purpose: ForWeather, key: s.weatherKey, weights: s.weather})
	}
	for i := range s.tasks {
		t, name := &s.tasks[i], d.Tasks[i].Name
		add(Factor{Name: name, Purpose: ForWork, At: i, key: t.amount.key, law: &t.amount})
		if t.mishap == nil || t.highest() <= 0 {
			continue
		}
		for n := range t.most() {
			if t.lowest() < 1 {
				add(Factor{Name: name, Purpose: ForMishap, N: n, At: i, key: t.chance, chance: t.mishap.Chance})
			}
			add(Factor{Name: name, Purpose: ForMishapAdds, N: n, At: i, key: t.adds.key, law: &t.adds})
		}
	}
	for i := range s.people {
		add(Factor{Name: d.People[i].Name, Purpose: ForArrives, At: i, key: s.people[i].key, law: &s.people[i]})
	}
	for i := range s.ownDays {
		add(Factor{Name: d.People[i].Name, Purpose: ForOwnDay, At: i, key: s.ownDays[i].key, law: &s.ownDays[i]})
	}
	for i := range s.loads {
		add(Factor{Name: d.Loads[i].Name, Purpose: ForLoadArrives, At: i, key: s.loads[i].key, law: &s.loads[i]})
	}
	return list
}

// highest and lowest are of the chances of a mishap: two where one hangs on a
// condition.
func (t *taskLaws) highest() float64 {
	if t.mishap.When == nil {
		return t.mishap.Chance
	}
	return max(t.mishap.Chance, t.mishap.Then)
}

func (t *taskLaws) lowest() float64 {
	if t.mishap.When == nil {
		return t.mishap.Chance
	}
	return min(t.mishap.Chance, t.mishap.Then)
}

// cases is how many weather cases can be drawn.
func (s *Sampler) cases() (n int) {
	for _, w := range s.weather {
		if w > 0 {
			n++
		}
	}
	return n
}

// Uniform returns the number that the streams of a run give: over 0 and under 1.
func (f *Factor) Uniform(from Start) float64 { return from.Uniform(f.key, f.N) }

// Value returns what a number u, over 0 and under 1, comes to: milliseconds of a
// length, before the crew and the day count, or since arrival; the factor of the
// day, or of a person's own;
// 1 where a mishap happens and 0 where it does not, by the usual chance where that
// hangs on a condition; the index of the weather case.
func (f *Factor) Value(u float64) float64 {
	switch f.Purpose {
	case ForMishap:
		if u < f.chance {
			return 1
		}
		return 0
	case ForWeather:
		return float64(pick(f.weights, u))
	}
	return f.law.of.Quantile(u)
}

// IsLength reports whether values are milliseconds.
func (f *Factor) IsLength() bool {
	return f.Purpose != ForDay && f.Purpose != ForOwnDay && f.Purpose != ForWeather && f.Purpose != ForMishap
}

// Places says which of some given numbers stands for which draw. It may be
// shared.
type Places map[place]int

// place is a draw of a stream.
type place struct {
	key Key
	n   int
}

// PlacesOf returns the places of some factors: a number for each, in sequence.
func PlacesOf(factors []Factor) Places {
	at := Places{}
	for i := range factors {
		at[place{factors[i].key, factors[i].N}] = i
	}
	return at
}

// RunGiven fills in the luck of a run as [Sampler.Run] does, with given numbers
// in place of some of those that its streams give: u holds one for each factor
// of the places, over 0 and under 1.
func (s *Sampler) RunGiven(seed uint64, run int, at Places, u []float64, l *sim.Luck) {
	s.tables.Do(s.tabulate)
	s.size(l)
	from := StartOf(seed, uint64(run))
	uniform := func(k Key, n int) float64 {
		if i, ok := at[place{k, n}]; ok {
			return u[i]
		}
		return from.Uniform(k, n)
	}
	of := func(law *law, n int) float64 {
		if law.of == nil {
			return law.value
		}
		return law.of.Quantile(uniform(law.key, n))
	}
	day := of(&s.day, 0)
	for i := range s.tasks {
		t := &s.tasks[i]
		amount := of(&t.amount, 0)
		if t.byDay {
			amount = float64(amount * day)
		}
		l.Amount[i], l.Mishaps[i], l.Mishap[i] = sim.Milliseconds(amount), 0, 0
		if t.mishap == nil {
			continue
		}
		t.meet(l, i, func(chance float64) (times int, adds sim.Time) {
			for times < t.most() && uniform(t.chance, times) < chance {
				adds += sim.Milliseconds(of(&t.adds, times))
				times++
			}
			return times, adds
		})
	}
	for i := range s.people {
		l.Person[i] = sim.Milliseconds(of(&s.people[i], 0))
	}
	for i := range s.loads {
		l.Load[i] = sim.Milliseconds(of(&s.loads[i], 0))
	}
	s.pace(l, func(day *law) float64 { return of(day, 0) })
	if len(s.weather) > 1 {
		l.Weather = pick(s.weather, uniform(s.weatherKey, 0))
	}
}

// Of returns the place of a factor among the numbers, if it has one.
func (p Places) Of(f *Factor) (i int, ok bool) {
	i, ok = p[place{f.key, f.N}]
	return i, ok
}
