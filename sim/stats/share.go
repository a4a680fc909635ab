package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Share is a share of runs with its interval, all 0 to 1.
type Share struct {
	Value, Low, High float64
	Count, Runs      int64
	Exact            bool   // Clopper and Pearson's interval; else Wilson's
	Warning          string // about few runs; may be empty
}

// rare is up to how many runs, on either side, a share has its exact interval:
// Wilson's is too short there.
const rare = 10

// ShareOf returns the share count of runs with its 95 % interval: the exact one
// when fewer than ten runs, or all but so few, are of the kind, else Wilson's,
// which comes closer to 95 %. Runs must not be 0.
func ShareOf(count, runs int64) Share { return ShareAt(count, runs, Level) }

// ShareAt is ShareOf with another level.
func ShareAt(count, runs int64, level float64) Share {
	if runs <= 0 || count < 0 || count > runs {
		panic(fmt.Sprintf("stats: share %d of %d", count, runs))
	}
	s := Share{Value: float64(count) / float64(runs), Count: count, Runs: runs, Warning: fewRuns(runs)}
	if s.Exact = min(count, runs-count) < rare; s.Exact {
		s.Low, s.High = ClopperPearson(count, runs, level)
	} else {
		s.Low, s.High = Wilson(count, runs, level)
	}
	s.Low, s.High = settled(s.Low), settled(s.High)
	return s
}

// settled rounds an end of an interval to nine decimals: the quantiles that it is
// made of differ between processors in their last bits.
func settled(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// Wilson returns the score interval of a share (E. B. Wilson, J. Am. Stat.
// Assoc. 22 (1927) 209-212).
func Wilson(count, runs int64, level float64) (low, high float64) {
	z := distuv.UnitNormal.Quantile((1 + level) / 2)
	p, n := float64(count)/float64(runs), float64(runs)
	mid := (p + z*z/(2*n)) / (1 + z*z/n)
	half := float64(z / (1 + z*z/n) * math.Sqrt(p*(1-p)/n+z*z/(4*n*n)))
	return max(0, mid-half), min(1, mid+half)
}

// ClopperPearson returns the exact interval of a share, which holds with the
// level or more (C. J. Clopper and E. S. Pearson, Biometrika 26 (1934)
// 404-413), by quantiles of the beta distribution.
func ClopperPearson(count, runs int64, level float64) (low, high float64) {
	tail := (1 - level) / 2
	k, n := float64(count), float64(runs)
	high = 1
	if count > 0 {
		low = distuv.Beta{Alpha: k, Beta: n - k + 1}.Quantile(tail)
	}
	if count < runs {
		high = distuv.Beta{Alpha: k + 1, Beta: n - k}.Quantile(1 - tail)
	}
	return low, high
}

// Count returns in how many of some runs a thing is so.
func Count(in []bool) (n int64) {
	for _, yes := range in {
		if yes {
			n++
		}
	}
	return n
}
