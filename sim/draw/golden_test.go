package draw

import (
	"math"
	"testing"
)

// These bits must never change: a seed that somebody wrote down must give the
// same drill in every later version and on every processor.
func TestStreamsNeverChange(t *testing.T) {
	for _, c := range []struct {
		seed, run uint64
		name      string
		purpose   string
		n         int
		want      uint64
	}{
		{0, 0, "", ForDay, 0, 0x3fe5d47f8a673971},
		{1, 0, "pitch the tent", ForWork, 0, 0x3fdf6fe54daa8082},
		{1, 1, "pitch the tent", ForWork, 0, 0x3fedd73ad15244e9},
		{2, 0, "pitch the tent", ForWork, 0, 0x3fe4e0b27fd40d8d},
		{1, 0, "pitch the tent", ForMishap, 0, 0x3fc287725a409ca4},
		{1, 0, "pitch the tent", ForMishapAdds, 2, 0x3fb516c0367ba948},
		{20261125, 999999, "Åse", ForArrives, 0, 0x3fe96381d7669fed},
		{math.MaxUint64, math.MaxUint64, "pulk", ForLoadArrives, 7, 0x3fe77401c1c29893},
		{42, 3, "", ForWeather, 0, 0x3fcfef24912f03e4},
	} {
		got := math.Float64bits(Uniform01(c.seed, c.run, KeyOf(c.name, c.purpose), c.n))
		if got != c.want {
			t.Errorf("{%d, %d, %q, %q, %d, %#x}", c.seed, c.run, c.name, c.purpose, c.n, got)
		}
	}
}

// A hash of the bits of 20,000 quantiles of each law.
func TestLawsNeverChange(t *testing.T) {
	want := []uint64{
		0x7f2393adc08b6eee,
		0xa7187a962f463aeb,
		0x3e1d171f7e1c9c1,
		0xa1a202bb925730c5,
		0xb959a338dac8e5bd,
		0x536e34d8e707add5,
		0xbd1d9c71d071ed63,
		0xef77dcbcedfcf17,
		0x8fb374eabf51815c,
		0x83e8f2eda87117f8,
		0x5444221ff500e9a8,
		0x123dc030d775b156,
		0x5e690e97de38e416,
		0x5b119ef7b0a7f8b1,
	}
	for i, d := range everyLaw() {
		hash := uint64(0)
		for n := range 20000 {
			p := Uniform01(1, uint64(n), 5, 0)
			if n%10 == 0 { // far out
				p *= 1e-6
			} else if n%10 == 1 {
				p = 1 - p*1e-6
			}
			hash = mix(hash ^ math.Float64bits(d.Quantile(p)))
		}
		if i >= len(want) || hash != want[i] {
			t.Errorf("law %d, %T: %#x", i, d, hash)
		}
	}
}
