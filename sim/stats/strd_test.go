package stats

import (
	"math"
	"testing"

	"warmby/sim"
)

// The data sets and certified values for univariate summary statistics of the
// Statistical Reference Datasets, National Institute of Standards and
// Technology (itl.nist.gov/div898/strd/univ/homepage.html; data in the public
// domain). Values are counted
// in units of their last decimal, as whole numbers.
func TestMeanAndSDHaveCertifiedDigits(t *testing.T) {
	// digits is how many digits of the certified value a float64 can carry
	// through one division and one root.
	const digits = 14.5
	for _, c := range []struct {
		name     string
		data     []int64
		unit     float64 // values of one
		mean, sd float64 // certified
	}{
		{"NumAcc1", []int64{10000001, 10000003, 10000002}, 1, 10000002, 1},
		{"NumAcc2", constructed(12), 10, 1.2, 0.1},
		{"NumAcc3", constructed(10000002), 10, 1000000.2, 0.1},
		{"NumAcc4", constructed(100000002), 10, 10000000.2, 0.1},
		{"Michelso", michelso, 100, 299.852400000000, 0.0790105478190518},
		{"Mavro", mavro, 100000, 2.00185600000000, 0.000429123454003053},
	} {
		t.Run(c.name, func(t *testing.T) {
			var all Tally
			for _, x := range c.data {
				all.Add(sim.Time(x))
			}
			check := func(what string, got, want float64) {
				if lre := -math.Log10(math.Abs(got-want) / want); lre < digits {
					t.Errorf("%s = %.15g, want %.15g: %.1f digits agree", what, got, want, lre)
				}
			}
			check("mean", all.Mean().Value/c.unit, c.mean)
			check("sd", all.SD()/c.unit, c.sd)
		})
	}
}

// constructed is the set NumAcc2 to 4: a middle value, then 500 times one unit
// less and one more.
func constructed(middle int64) []int64 {
	data := []int64{middle}
	for range 500 {
		data = append(data, middle-1, middle+1)
	}
	return data
}

// Speed of light, 100 observations by A. A. Michelson (1879), in 10 km/s.
var michelso = []int64{
	29985, 29974, 29990, 30007, 29993, 29985, 29995, 29998, 29998, 29988,
	30000, 29998, 29993, 29965, 29976, 29981, 30000, 30000, 29996, 29996,
	29996, 29994, 29996, 29994, 29988, 29980, 29985, 29988, 29990, 29984,
	29983, 29979, 29981, 29988, 29988, 29983, 29980, 29979, 29976, 29980,
	29988, 29988, 29988, 29986, 29972, 29972, 29962, 29986, 29997, 29995,
	29988, 29991, 29985, 29987, 29984, 29984, 29985, 29984, 29984, 29984,
	29989, 29981, 29981, 29982, 29980, 29977, 29976, 29974, 29975, 29976,
	29991, 29992, 29989, 29986, 29988, 29972, 29984, 29985, 29985, 29978,
	29989, 29984, 29978, 29981, 29976, 29981, 29979, 29981, 29982, 29985,
	29987, 29987, 29981, 29974, 29981, 29994, 29995, 29980, 29981, 29987,
}

// Transmittance of a filter, 50 observations by R. Mavrodineanu.
var mavro = []int64{
	200180, 200170, 200180, 200190, 200180, 200170, 200150, 200140, 200150, 200150,
	200170, 200180, 200180, 200190, 200190, 200210, 200200, 200160, 200140, 200130,
	200130, 200150, 200150, 200160, 200150, 200140, 200130, 200140, 200150, 200140,
	200150, 200160, 200150, 200160, 200190, 200200, 200200, 200210, 200220, 200230,
	200240, 200250, 200270, 200260, 200260, 200260, 200270, 200260, 200250, 200240,
}
