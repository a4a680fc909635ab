package played

import (
	"cmp"
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	odds "warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// BenchmarkLessLuck measures by how much drawing otherwise than independently makes
// estimates surer: how many times as many independent runs would do as well, for
// means, shares in time and quantiles of 9 in 10. What came of it stands in the
// package doc of sim/draw. Run it by
//
//	go test ./scenarios/played -run '^$' -bench LessLuck -benchtime 1x
func BenchmarkLessLuck(b *testing.B) {
	for _, name := range library.Names() {
		text, _ := library.Read(name)
		s, err := scenarios.Read(name, text)
		if err != nil {
			b.Fatal(err)
		}
		d := drill(b, name, string(text), s.Orders()[0])
		for _, scheme := range []struct {
			name string
			draw func(m *measured, r *rand.Rand) [][]float64
		}{{"antithetic", (*measured).antithetic}, {"sobol", (*measured).sobol}} {
			b.Run(name+"/"+scheme.name, func(b *testing.B) {
				for range b.N {
					m := newMeasured(d)
					plain, other := m.spread((*measured).independent), m.spread(scheme.draw)
					for k, what := range []string{"mean", "in-time", "9-of-10"} {
						if plain[k] > 0 {
							b.ReportMetric(math.Exp(math.Log(plain[k]/other[k])), "x-"+what)
						}
					}
				}
			})
		}
	}
}

// An estimate is of so many runs; its spread is measured over so many.
const lessRuns, lessTimes = 256, 300

// measured is a drill whose estimates are measured at the first milestone that it
// is about.
type measured struct {
	d         *sim.Drill
	milestone int
	sampler   *draw.Sampler
	factors   []draw.Factor
	places    draw.Places
	worker    *fast.Worker
	first     []int // factors, that which moves the milestone most first
}

func newMeasured(d *sim.Drill) *measured {
	m := &measured{d: d, milestone: odds.Primary(d)[0], sampler: draw.NewSampler(d), worker: fast.Compile(d).Worker()}
	m.factors = m.sampler.Factors(d)
	m.places = draw.PlacesOf(m.factors)
	r := rand.New(rand.NewPCG(1, 1))
	var us [][]float64
	for range 8 {
		us = append(us, m.independent(r)...)
	}
	at := m.play(us)
	moves := make([]float64, len(m.factors))
	for f := range m.factors {
		m.first = append(m.first, f)
		var u []sim.Time
		for _, row := range us {
			u = append(u, sim.Time(row[f]*1e9))
		}
		if c := stats.Spearman(stats.Ranks(u), stats.Ranks(at)); c.OK() {
			moves[f] = math.Abs(c.Value)
		}
	}
	slices.SortStableFunc(m.first, func(a, b int) int { return cmp.Compare(moves[b], moves[a]) })
	return m
}

// play returns when the milestone comes in runs with such numbers.
func (m *measured) play(us [][]float64) (at []sim.Time) {
	var luck sim.Luck
	var r fast.Result
	for _, u := range us {
		m.sampler.RunGiven(1, 0, m.places, u, &luck)
		m.worker.Play(&luck, &r)
		at = append(at, r.Milestones[m.milestone])
	}
	return at
}

// spread returns the variances of the mean, the share in time and the quantile.
func (m *measured) spread(draw func(*measured, *rand.Rand) [][]float64) (variance [3]float64) {
	r := rand.New(rand.NewPCG(7, 7))
	var sums, squares [3]float64
	for range lessTimes {
		at := m.play(draw(m, r))
		total, inTime := 0.0, 0.0
		for _, t := range at {
			total += float64(t)
			if t <= m.d.Milestones[m.milestone].By {
				inTime++
			}
		}
		slices.Sort(at)
		for k, v := range [3]float64{total / lessRuns, inTime / lessRuns, float64(at[lessRuns*9/10])} {
			sums[k], squares[k] = sums[k]+v, squares[k]+v*v
		}
	}
	for k := range variance {
		mean := sums[k] / lessTimes
		variance[k] = squares[k]/lessTimes - mean*mean
	}
	return variance
}

func (m *measured) independent(r *rand.Rand) (us [][]float64) {
	for range lessRuns {
		u := make([]float64, len(m.factors))
		for f := range u {
			u[f] = inside(r.Float64())
		}
		us = append(us, u)
	}
	return us
}

// antithetic follows each run by one in which all that was early is late.
func (m *measured) antithetic(r *rand.Rand) [][]float64 {
	us := m.independent(r)
	for k := 1; k < len(us); k += 2 {
		for f := range us[k] {
			us[k][f] = inside(1 - us[k-1][f])
		}
	}
	return us
}

// sobol takes scrambled Sobol points for the factors that move the milestone most,
// and a Latin hypercube for the others.
func (m *measured) sobol(r *rand.Rand) [][]float64 {
	us := m.independent(r)
	for k, f := range m.first {
		if k < len(directions)+1 {
			seed := r.Uint64()
			for run := range us {
				us[run][f] = inside((float64(scrambled(sobolAt(k, uint32(run)), seed)) + us[run][f]) / (1 << 32))
			}
			continue
		}
		for run, stratum := range r.Perm(lessRuns) {
			us[run][f] = inside((float64(stratum) + us[run][f]) / lessRuns)
		}
	}
	return us
}

func inside(u float64) float64 { return min(max(u, 1e-12), 1-1e-12) }

// directions are the degree, the coefficients and the first direction numbers of
// dimensions 2 to 21 (S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008)
// 2635-2654, their table new-joe-kuo-6; from memory).
var directions = []struct {
	degree, poly uint32
	m            []uint32
}{
	{1, 0, []uint32{1}}, {2, 1, []uint32{1, 3}}, {3, 1, []uint32{1, 3, 1}}, {3, 2, []uint32{1, 1, 1}},
	{4, 1, []uint32{1, 1, 3, 3}}, {4, 4, []uint32{1, 3, 5, 13}},
	{5, 2, []uint32{1, 1, 5, 5, 17}}, {5, 4, []uint32{1, 1, 5, 5, 5}}, {5, 7, []uint32{1, 1, 7, 11, 19}},
	{5, 11, []uint32{1, 1, 5, 1, 1}}, {5, 13, []uint32{1, 1, 1, 3, 11}}, {5, 14, []uint32{1, 3, 5, 5, 31}},
	{6, 1, []uint32{1, 3, 3, 9, 7, 49}}, {6, 13, []uint32{1, 1, 1, 15, 21, 21}}, {6, 16, []uint32{1, 3, 1, 13, 27, 49}},
	{6, 19, []uint32{1, 1, 1, 15, 7, 5}}, {6, 22, []uint32{1, 3, 1, 15, 13, 25}}, {6, 25, []uint32{1, 1, 5, 5, 19, 61}},
	{7, 1, []uint32{1, 3, 7, 11, 23, 15, 103}}, {7, 4, []uint32{1, 3, 7, 13, 13, 15, 69}},
}

// sobolAt returns a coordinate of a Sobol point, in 32 bits.
func sobolAt(dimension int, point uint32) (x uint32) {
	if dimension == 0 {
		return bits.Reverse32(point)
	}
	d := directions[dimension-1]
	var v [32]uint32
	for k := range v {
		if k < len(d.m) {
			v[k] = d.m[k] << (31 - k)
			continue
		}
		s := int(d.degree)
		v[k] = v[k-s] ^ v[k-s]>>s
		for j := 1; j < s; j++ {
			if d.poly>>(s-1-j)&1 == 1 {
				v[k] ^= v[k-j]
			}
		}
	}
	for k := range v {
		if point>>k&1 == 1 {
			x ^= v[k]
		}
	}
	return x
}

// scrambled flips each bit by those above it (A. B. Owen, Monte Carlo and
// Quasi-Monte Carlo Methods in Scientific Computing (1995) 299-317).
func scrambled(x uint32, seed uint64) (y uint32) {
	for k := 31; k >= 0; k-- {
		above := uint64(x) >> (k + 1)
		mixed := (above<<6 | uint64(k)) * 0x9e3779b97f4a7c15
		mixed = (mixed ^ seed) * 0xbf58476d1ce4e5b9
		y |= (x>>k&1 ^ uint32(bits.OnesCount64(mixed^mixed>>29)&1)) << k
	}
	return y
}

// Every 256 points of a Sobol dimension fall one into each 256th, scrambled or not.
func TestSobolPointsFillEachDimensionEvenly(t *testing.T) {
	for dimension := range len(directions) + 1 {
		var plain, other [256]bool
		for point := range uint32(256) {
			x := sobolAt(dimension, point)
			plain[x>>24], other[scrambled(x, 12345)>>24] = true, true
		}
		if slices.Contains(plain[:], false) || slices.Contains(other[:], false) {
			t.Errorf("dimension %d leaves a gap", dimension+1)
		}
	}
}
