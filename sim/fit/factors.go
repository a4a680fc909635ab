package fit

import (
	"math"
	"slices"
	"sort"

	"warmby/sim/timed"
)

// bothSides is how many drills a condition needs with it and without it.
const bothSides = 2

// conditions returns the factors of which there are drills on both sides, and
// that every drill says.
func (f *Fitted) conditions() []Factor {
	var out []Factor
	for _, one := range []struct {
		kind FactorKind
		of   func(c *timed.Conditions) timed.Answer
	}{
		{InTheDark, func(c *timed.Conditions) timed.Answer { return c.Dark }},
		{IndoorDrill, func(c *timed.Conditions) timed.Answer { return c.Indoor }},
		{LearningTeam, func(c *timed.Conditions) timed.Answer { return c.Learning }},
	} {
		x := Factor{Kind: one.kind}
		yes, no := 0, 0
		for _, e := range f.Evenings {
			switch one.of(&e.Timed.Conditions) {
			case timed.Yes:
				yes, x.Values = yes+1, append(x.Values, 1)
			case timed.No:
				no, x.Values = no+1, append(x.Values, 0)
			}
		}
		if yes >= bothSides && no >= bothSides && yes+no == len(f.Evenings) {
			out = append(out, x)
		}
	}
	return out
}

// teams returns a factor for each team, where there are several, in the sequence
// in which they first stand.
func (f *Fitted) teams() []Factor {
	var out []Factor
	for _, e := range f.Evenings {
		known := slices.ContainsFunc(out, func(x Factor) bool { return x.Team == e.Timed.Team })
		if !known {
			out = append(out, Factor{Kind: OneTeam, Team: e.Timed.Team})
		}
	}
	if len(out) < 2 {
		return nil
	}
	for k := range out {
		for _, e := range f.Evenings {
			x := 0.0
			if e.Timed.Team == out[k].Team {
				x = 1
			}
			out[k].Values = append(out[k].Values, x)
		}
	}
	return out
}

// pacesFrom is how many rows with named people a fit of paces needs, for each of
// them.
const pacesFrom = 6

// named returns how many people there are if paces can be told: everybody whom
// the log names is named often, and not always with the same others.
func (f *Fitted) named() int {
	count := make([]int, len(f.Drill.People))
	crews := map[int]bool{}
	for _, r := range f.Data {
		set := 0
		for _, c := range r.Crew {
			if c.Person < len(count) {
				count[c.Person]++
				set = set*131 + c.Person + 1
			}
		}
		crews[set] = true
	}
	enough := 0
	for _, n := range count {
		if n >= pacesFrom {
			enough++
		}
	}
	if enough < 2 || len(crews) < 2*enough {
		return 0
	}
	return len(count)
}

// Learning is the learning curve of T. P. Wright (Journal of the Aeronautical
// Sciences 3 (1936) 122-128): the n-th time takes n^b of the first.
type Learning struct {
	// Tried reports whether there were drills enough; Used whether the drills
	// that came later were foretold better with it than without.
	Tried, Used bool
	// With and Without are the mean logarithms of the density at what came, of
	// drills foretold from those before them only.
	With, Without float64
	Foretold      int // drills so foretold
}

// learningFrom is how many dated drills a learning curve needs.
const learningFrom = 6

// Wright returns how long the n-th time takes, the first being 1, when each
// doubling of the number brings it to rate of what it was: n^(log2 rate).
func Wright(rate float64, n int) float64 { return math.Pow(float64(n), math.Log2(rate)) }

// LearningRate returns the rate of Wright's curve of an exponent: 2^b.
func LearningRate(b float64) float64 { return math.Exp2(b) }

// Attempts returns the logarithm of the how-manieth drill of its team each one
// is, by date and then as they stand; ok is false when one has no date.
func Attempts(evenings []Evening) (logs []float64, inTime []int, ok bool) {
	inTime = make([]int, len(evenings))
	for i, e := range evenings {
		if inTime[i] = i; e.Timed.Date == "" {
			return nil, nil, false
		}
	}
	sort.SliceStable(inTime, func(a, b int) bool {
		return evenings[inTime[a]].Timed.Date < evenings[inTime[b]].Timed.Date
	})
	logs = make([]float64, len(evenings))
	count := map[string]int{}
	for _, i := range inTime {
		count[evenings[i].Timed.Team]++
		logs[i] = math.Log(float64(count[evenings[i].Timed.Team]))
	}
	return logs, inTime, true
}

// learn tries the learning curve forwards in time and keeps it where it helps.
func (f *Fitted) learn() {
	logs, inTime, ok := Attempts(f.Evenings)
	if !ok || len(inTime) < learningFrom {
		return
	}
	f.Learning.Tried = true
	curve := Factor{Kind: LearningCurve, Values: logs}
	without := f.model()
	with := *without
	with.Factors = append(with.Factors[:len(with.Factors):len(with.Factors)], logs)
	each := (len(inTime) + mostLeft - 1) / mostLeft
	for k := 3; k < len(inTime); k += each {
		f.Learning.Foretold++
		f.Learning.Without += f.ahead(without, inTime, k)
		f.Learning.With += f.ahead(&with, inTime, k)
	}
	f.Learning.With /= float64(f.Learning.Foretold)
	f.Learning.Without /= float64(f.Learning.Foretold)
	if f.Learning.Used = f.Learning.With > f.Learning.Without; f.Learning.Used {
		f.Factors = append(f.Factors, curve)
	}
}

// ahead returns the logarithm of the joint density of the lengths of the k-th
// drill in time, foretold from those before it.
func (f *Fitted) ahead(m *Model, inTime []int, k int) float64 {
	before := map[int]bool{}
	for _, i := range inTime[:k] {
		before[i] = true
	}
	var rows, later []Row
	for _, r := range f.Data {
		switch {
		case before[r.Drill]:
			rows = append(rows, r)
		case r.Drill == inTime[k] && r.Kind == Exact:
			later = append(later, r)
		}
	}
	var factors []float64
	for _, x := range m.Factors {
		factors = append(factors, x[inTime[k]])
	}
	return Chain(m, rows, Quick, f.options.Seed, 50+k).density(later, factors)
}

// density returns the logarithm of the joint density of the rows of one drill
// to come: with the day in common, averaged over the draws.
func (p *Posterior) density(rows []Row, factors []float64) float64 {
	if len(rows) == 0 {
		return 0
	}
	lawOf := p.Model.lawOf()
	logs := make([]float64, len(p.Draws))
	for k := range p.Draws {
		logs[k] = p.Draws[k].density(p.Model, rows, lawOf, factors)
	}
	most := math.Inf(-1)
	for _, l := range logs {
		most = math.Max(most, l)
	}
	sum := 0.0
	for _, l := range logs {
		sum += math.Exp(l - most)
	}
	return most + math.Log(sum/float64(len(logs)))
}

// density is that of the rows given one set of parameters; with the day
// integrated out the works are normal with covariance diag(s^2) + h^2 J, whose
// density follows from sums (Sherman and Morrison).
func (d *Draw) density(m *Model, rows []Row, lawOf map[int]int, factors []float64) float64 {
	var out, weight, sum, squares float64
	day2 := d.Day * d.Day
	for _, r := range rows {
		i := lawOf[r.Task]
		mean, v := d.Level[i], d.Spread[i]*d.Spread[i]
		if m.Laws[i].Work {
			for j, x := range factors {
				mean += d.Factor[j] * x
			}
		}
		e := r.Log - mean
		out -= 0.5 * math.Log(2*math.Pi*v)
		squares += e * e / v
		if m.Laws[i].Work {
			weight, sum = weight+1/v, sum+e/v
		}
	}
	return out - 0.5*squares + 0.5*day2*sum*sum/(1+day2*weight) - 0.5*math.Log1p(day2*weight)
}
