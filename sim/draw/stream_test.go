package draw

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// sequences are ways to walk through the streams; each must look like
// independent, even numbers.
func sequences() map[string]func(i int) float64 {
	work := KeyOf("pitch the tent", ForWork)
	return map[string]func(i int) float64{
		"runs":     func(i int) float64 { return Uniform01(1, uint64(i), work, 0) },
		"seeds":    func(i int) float64 { return Uniform01(uint64(i), 0, work, 0) },
		"draws":    func(i int) float64 { return Uniform01(1, 0, work, i) },
		"names":    func(i int) float64 { return Uniform01(1, 0, KeyOf(fmt.Sprintf("task %d", i), ForWork), 0) },
		"diagonal": func(i int) float64 { return Uniform01(uint64(i), uint64(i), work, i) },
		"far runs": func(i int) float64 { return Uniform01(1, uint64(i)<<32, work, 0) },
	}
}

// Chi-square over 100 cells must stay between its quantiles 0.001 and 0.999.
func TestStreamsAreEven(t *testing.T) {
	const n, cells = 100000, 100
	law := distuv.ChiSquared{K: cells - 1}
	for name, at := range sequences() {
		var count [cells]int
		for i := range n {
			count[int(at(i)*cells)]++
		}
		sum := 0.0
		for _, c := range count {
			d := float64(c) - n/cells
			sum += d * d / (n / cells)
		}
		if sum < law.Quantile(0.001) || sum > law.Quantile(0.999) {
			t.Errorf("%s: chi-square %.1f over %d cells", name, sum, cells)
		}
	}
}

// Pairs of neighbours, over 20 x 20 cells.
func TestNeighboursAreIndependent(t *testing.T) {
	const n, cells = 100000, 20
	law := distuv.ChiSquared{K: cells*cells - 1}
	for name, at := range sequences() {
		for _, lag := range []int{1, 2, 64} {
			var count [cells * cells]int
			xs, ys := make([]float64, n), make([]float64, n)
			for i := range n { // pairs that do not overlap, for chi-square
				j := i/lag*2*lag + i%lag
				xs[i], ys[i] = at(j), at(j+lag)
				count[int(xs[i]*cells)*cells+int(ys[i]*cells)]++
			}
			sum := 0.0
			for _, c := range count {
				d := float64(c) - n/(cells*cells)
				sum += d * d / (n / (cells * cells))
			}
			if sum < law.Quantile(0.0005) || sum > law.Quantile(0.9995) {
				t.Errorf("%s, %d apart: chi-square %.1f over %d cells", name, lag, sum, cells*cells)
			}
			if r := stat.Correlation(xs, ys, nil); math.Abs(r) > 3.5/math.Sqrt(n) {
				t.Errorf("%s, %d apart: correlation %.4f", name, lag, r)
			}
		}
	}
}

func TestStreamsOfDifferentNamesAreIndependent(t *testing.T) {
	const n = 50000
	keys := []Key{
		KeyOf("a", ForWork), KeyOf("b", ForWork), KeyOf("a", ForMishap), KeyOf("a", ForMishapAdds),
		KeyOf("", ForDay), KeyOf("", ForWeather), KeyOf("a", ForArrives), KeyOf("a", ForLoadArrives),
	}
	columns := make([][]float64, len(keys))
	for k := range keys {
		columns[k] = make([]float64, n)
		for i := range n {
			columns[k][i] = Uniform01(3, uint64(i), keys[k], 0)
		}
	}
	for a := range keys {
		for b := range a {
			if r := stat.Correlation(columns[a], columns[b], nil); math.Abs(r) > 3.9/math.Sqrt(n) {
				t.Errorf("streams %d and %d: correlation %.4f", a, b, r)
			}
		}
	}
}

func TestKeysDiffer(t *testing.T) {
	seen := map[Key]string{}
	add := func(name, purpose string) {
		k := KeyOf(name, purpose)
		if was, ok := seen[k]; ok {
			t.Fatalf("%q for %q has the key of %s", name, purpose, was)
		}
		seen[k] = name + "/" + purpose
	}
	for _, purpose := range []string{ForWork, ForMishap, ForMishapAdds, ForArrives, ForLoadArrives, ForDay, ForWeather} {
		add("", purpose)
		for i := range 5000 {
			add(fmt.Sprintf("task %d", i), purpose)
		}
	}
	add("wor", "k"+ForWork) // name and purpose do not run together
	add("a", "bc")
	add("ab", "c")
}

// Flipping any one bit of seed, run or place must turn half of the bits.
func TestEveryBitCounts(t *testing.T) {
	const tries = 400
	key := KeyOf("pitch the tent", ForWork)
	bits := func(seed, run, n uint64) uint64 {
		return uint64(math.Ldexp(Uniform01(seed, run, key, int(n)), 53))
	}
	for which, flip := range []func(i, bit uint64) uint64{
		func(i, bit uint64) uint64 { return bits(i, 5, 0) ^ bits(i^1<<bit, 5, 0) },
		func(i, bit uint64) uint64 { return bits(5, i, 0) ^ bits(5, i^1<<bit, 0) },
		func(i, bit uint64) uint64 { return bits(5, 5, i) ^ bits(5, 5, i^1<<bit) },
	} {
		for bit := range uint64(63) {
			var turned [52]int
			for i := range uint64(tries) {
				for b := range turned {
					turned[b] += int(flip(i, bit) >> (b + 1) & 1)
				}
			}
			for b, n := range turned { // sd 10; 9828 looks in all
				if n < tries/2-55 || n > tries/2+55 {
					t.Errorf("argument %d, bit %d turns output bit %d %d times of %d", which, bit, b, n, tries)
				}
			}
		}
	}
}

func TestUniformStaysInside(t *testing.T) {
	least, most := uint64(0), ^uint64(0)
	for _, bits := range []uint64{least, most} {
		u := (float64(bits>>12) + 0.5) * (1.0 / (1 << 52))
		if !(u > 0 && u < 1) {
			t.Errorf("bits %x give %v", bits, u)
		}
	}
}
