package fit

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// source draws by inverse distribution functions, one number after the other
// from one seed, so that a draw moves a little when the data move a little.
type source struct{ *rand.Rand }

func newSource(seed uint64, stream int) source {
	return source{rand.New(rand.NewPCG(seed, uint64(stream)+1))}
}

// uniform returns a number over 0 and under 1.
func (s source) uniform() float64 { return (float64(s.Uint64()>>12) + 0.5) / (1 << 52) }

func (s source) normal() float64 { return distuv.UnitNormal.Quantile(s.uniform()) }

// above returns a standard normal draw over a bound.
func (s source) above(bound float64) float64 {
	tail := 0.5 * math.Erfc(bound/math.Sqrt2)
	if tail < 1e-14 { // an exponential as good as has it: Robert (1995)
		return bound - math.Log(s.uniform())/math.Max(bound, 1)
	}
	return -distuv.UnitNormal.Quantile(tail * s.uniform())
}

// chiSquared draws with so many degrees of freedom: pairs of them are
// exponentials, the odd one the square of a normal. Beyond many it is Wilson and
// Hilferty's cube of a normal, good to 1e-4 there.
func (s source) chiSquared(freedom int) float64 {
	const many = 400
	if freedom > many {
		v := 2 / (9 * float64(freedom))
		c := 1 - v + math.Sqrt(v)*s.normal()
		return float64(freedom) * c * c * c
	}
	sum, product := 0.0, 1.0
	for i := 0; i < freedom/2; i++ {
		if product *= s.uniform(); product < 1e-200 {
			sum, product = sum-2*math.Log(product), 1
		}
	}
	sum -= 2 * math.Log(product)
	if freedom%2 == 1 {
		z := s.normal()
		sum += z * z
	}
	return sum
}

// weighed draws an index by the logarithms of weights.
func (s source) weighed(logs []float64) int {
	most := math.Inf(-1)
	for _, l := range logs {
		most = math.Max(most, l)
	}
	sum := 0.0
	for _, l := range logs {
		sum += math.Exp(l - most)
	}
	u := s.uniform() * sum
	for i, l := range logs {
		if u -= math.Exp(l - most); u < 0 {
			return i
		}
	}
	return len(logs) - 1
}
