package fit

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/stat/distuv"
)

// Draw is one set of parameters that the log leaves open.
type Draw struct {
	Level  []float64 // of each law: the logarithm of its median, the shift in it
	Spread []float64 // of each law, of one drill from the next but for the day
	Day    float64   // spread of the day's factor
	Worth  []float64 // of each law, how many drills the file's level counts as
	Factor []float64
	Pace   []float64
	Days   []float64 // of each drill, the shift in it
	Shift  float64   // of all work
	// Between is the spread of levels around the shift; Wider by what the file's
	// spreads are to be multiplied.
	Between, Wider float64
}

// Posterior is what is known after a log.
type Posterior struct {
	Model *Model
	Rows  []int // of each law, how many rows
	Draws []Draw
}

// Effort says how long a chain is.
type Effort struct {
	Warmup, Keep, Thin int
}

// Usually is the effort for one answer; Quick for one of many.
var (
	Usually = Effort{Warmup: 400, Keep: 1200, Thin: 2}
	Quick   = Effort{Warmup: 200, Keep: 300, Thin: 2}
)

// forRows takes the effort down for a log of very many rows, which leaves little
// open: about 20 million visits of a row, of one of many chains a million.
func (e Effort) forRows(n int) Effort {
	visits := 20_000_000
	if e == Quick {
		visits = 1_000_000
	}
	if most := visits / max(1, n); e.Warmup+e.Keep*e.Thin > most {
		return Effort{Warmup: max(40, most/4), Keep: max(100, most*3/4), Thin: 1}
	}
	return e
}

// turns is how long a chain is that goes through the drills.
type turns struct{ warmup, keep, sweeps int }

// turns returns as many turns as make the draws asked for, but for logs of very
// many drills, which leave less open: about 1,600 drills played again, of one of
// many fits 1,200, and 12 turns at least.
func (e Effort) turns(drills int) turns {
	plays, fewest := 1600, 12
	if e == Quick {
		plays = 1200
	}
	n := min(max(fewest, plays/max(1, drills)), 400) / 2
	return turns{n, n, min(60, (e.Keep+n-1)/n)}
}

// Chain fits a model to rows.
func Chain(m *Model, rows []Row, e Effort, seed uint64, stream int) *Posterior {
	st := newState(m, rows, seed, stream)
	e = e.forRows(len(rows))
	for range e.Warmup {
		st.sweep()
	}
	p := &Posterior{Model: m, Rows: make([]int, len(m.Laws))}
	for i := range p.Rows {
		p.Rows[i] = len(st.of[i])
	}
	for range e.Keep {
		for range e.Thin {
			st.sweep()
		}
		p.Draws = append(p.Draws, st.draw())
	}
	return p
}

func (st *state) draw() Draw {
	k := len(st.m.Laws)
	d := Draw{
		Level: make([]float64, k), Spread: make([]float64, k), Worth: make([]float64, k), Day: st.days, Shift: st.shift[works],
		Between: st.between, Wider: st.wider,
		Factor: append([]float64(nil), st.factor...), Pace: append([]float64(nil), st.pace...), Days: append([]float64(nil), st.day...),
	}
	for i, l := range st.m.Laws {
		d.Level[i] = l.Level + st.task[i] + st.shift[groupOf(l)]
		d.Spread[i] = math.Sqrt(st.square[i])
		d.Worth[i] = st.square[i] / (st.between * st.between)
	}
	return d
}

// Next is what is foretold of a task in the next drill, given the factors that
// will hold there: given the parameters a normal of the logarithm, and with the
// spread integrated out Student's t; over the draws, a mixture of them.
type Next struct{ mean, sd []float64 }

// Next returns what is foretold of a law in the next drill.
func (p *Posterior) Next(law int, factors []float64) Next {
	l := p.Model.Laws[law]
	n := Next{make([]float64, len(p.Draws)), make([]float64, len(p.Draws))}
	for k, d := range p.Draws {
		n.mean[k], n.sd[k] = d.Level[law], d.Spread[law]
		if l.Work {
			n.sd[k] = math.Hypot(d.Spread[law], d.Day)
			for j, x := range factors {
				n.mean[k] += d.Factor[j] * x
			}
		}
	}
	return n
}

// Chance returns how likely the logarithm is to be under x.
func (n Next) Chance(x float64) float64 {
	sum := 0.0
	for k := range n.mean {
		sum += distuv.UnitNormal.CDF((x - n.mean[k]) / n.sd[k])
	}
	return sum / float64(len(n.mean))
}

// Quantile returns the amount in milliseconds that is not passed with chance q.
func (n Next) Quantile(q float64) float64 { return math.Exp(n.logQuantile(q)) }

// logQuantile looks for the place by Newton's steps from where a normal of the
// same mean and spread has it, and halves the bracket where one leads out of it.
func (n Next) logQuantile(q float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	sum, square := 0.0, 0.0
	for k, mean := range n.mean {
		low, high = min(low, mean-8*n.sd[k]), max(high, mean+8*n.sd[k])
		sum, square = sum+mean, square+float64(mean*mean)+float64(n.sd[k]*n.sd[k])
	}
	size := float64(len(n.mean))
	mean := sum / size
	x := mean + float64(math.Sqrt(max(0, square/size-float64(mean*mean)))*distuv.UnitNormal.Quantile(q))
	for range 60 {
		off := n.Chance(x) - q
		if off < 0 {
			low = x
		} else {
			high = x
		}
		next := x - off/n.density(x)
		if !(low < next && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) < 1e-9 { // what is left is of the order of its square
			return next
		}
		x = next
	}
	return x
}

// density returns that of the logarithm at x.
func (n Next) density(x float64) float64 {
	sum := 0.0
	for k := range n.mean {
		sum += distuv.UnitNormal.Prob((x-n.mean[k])/n.sd[k]) / n.sd[k]
	}
	return sum / float64(len(n.mean))
}

// quantile returns the value of a share of draws, interpolated between two.
func quantile(of []float64, q float64) float64 {
	s := append([]float64(nil), of...)
	sort.Float64s(s)
	at := q * float64(len(s)-1)
	i := int(at)
	if i+1 >= len(s) {
		return s[len(s)-1]
	}
	return s[i] + (at-float64(i))*(s[i+1]-s[i])
}

// Over returns the quantile over the draws of a number worked out from each.
func (p *Posterior) Over(q float64, f func(*Draw) float64) float64 {
	of := make([]float64, len(p.Draws))
	for k := range p.Draws {
		of[k] = f(&p.Draws[k])
	}
	return quantile(of, q)
}
