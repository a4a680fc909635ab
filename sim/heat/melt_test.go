package heat

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// Worked by hand from the pinned constants, kJ for each litre.
func TestMeltEnergyForALitre(t *testing.T) {
	for _, c := range []struct{ snow, to, want float64 }{
		{0, 0, 333.6}, {-10, 0, 354.6}, {-20, 0, 375.7}, {-10, 100, 773.2},
		{-20, 60, 626.9}, {-20, 100, 794.3}, {-30, 100, 815.4}, {-40, 100, 836.5},
	} {
		m := &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1), To: c.to}
		got := MeltEnergy(&sim.Site{SnowTemperature: c.snow}, m) / 1000
		near(t, "energy", got, c.want, 0.1)
	}
}

// Standard atmosphere, and the Antoine equation with the NIST constants for
// 344 to 373 K.
func TestBoilingPointFallsWithElevation(t *testing.T) {
	for _, c := range []struct{ elevation, kilopascal, celsius float64 }{
		{0, 101.325, 100.00}, {1000, 89.875, 96.67}, {2000, 79.495, 93.34},
		{3000, 70.109, 90.00}, {4000, 61.640, 86.64}, {5000, 54.020, 83.28},
		{6000, 47.181, 79.90},
	} {
		near(t, "pressure", Pressure(c.elevation)/1000, c.kilopascal, 0.001)
		got, ok := BoilingPoint(c.elevation)
		near(t, "boiling point", got, c.celsius, 0.05)
		if !ok {
			t.Errorf("BoilingPoint(%v) says that it is out of its range", c.elevation)
		}
	}
}

func TestBoilingPointOutOfRangeSaysSo(t *testing.T) {
	for _, c := range []struct {
		elevation float64
		ok        bool
	}{{-430, true}, {8600, true}, {8700, false}, {45000, false}, {1e9, false}, {-1e9, false}} {
		got, ok := BoilingPoint(c.elevation)
		if ok != c.ok || math.IsNaN(got) || math.IsInf(got, 0) {
			t.Errorf("BoilingPoint(%v) = %v, %v, want %v", c.elevation, got, ok, c.ok)
		}
	}
}

// Minutes for a litre from snow at -20 C with efficiency 0.5, to 100 C and
// to 0 C, worked from the same energies.
func TestMeltTimeForALitre(t *testing.T) {
	for _, c := range []struct{ kilowatt, boil, melt float64 }{
		{1.5, 17.65, 8.35}, {2.0, 13.24, 6.26}, {2.5, 10.59, 5.01}, {3.0, 8.83, 4.17},
	} {
		stove := &sim.Stove{Power: c.kilowatt * 1000, Efficiency: 0.5}
		site := &sim.Site{SnowTemperature: -20}
		minutes := func(to float64) float64 {
			return Melt(site, stove, &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1), To: to}).Time.Minutes()
		}
		near(t, "minutes to boil", minutes(100), c.boil, 0.01)
		near(t, "minutes to melt", minutes(0), c.melt, 0.01)
	}
}

// Volume of snow for a litre of water by its density in kg/m3.
func TestSnowForALitre(t *testing.T) {
	for _, c := range []struct{ density, litres float64 }{
		{70, 14.3}, {100, 10.0}, {150, 6.7}, {300, 3.3}, {400, 2.5},
	} {
		m := &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1)}
		got := Melt(&sim.Site{SnowDensity: c.density}, &sim.Stove{Power: 1, Efficiency: 1}, m)
		near(t, "litres of snow", got.SnowLitres, c.litres, 0.05)
	}
}

// 3 L in pots of 1.25 L, 0.2 L of it water at the start, on 2.2 kW at 45 %:
// (2.8 (2.108 12 + 333.55) + 3 4.186 t) kJ / 0.99 kW, and three handlings.
func TestMeltCountsStartAndFillings(t *testing.T) {
	site := &sim.Site{SnowTemperature: -12, SnowDensity: 240, Elevation: 280}
	stove := &sim.Stove{Power: 2200, Efficiency: 0.45}
	m := &sim.Melting{Water: big.NewRat(3, 1), Start: big.NewRat(1, 5), Pot: big.NewRat(5, 4), Boil: true, Handling: sim.Minute}
	got := Melt(site, stove, m)
	boils, _ := BoilingPoint(280)
	kilojoule := 2.8*(2.108*12+333.55) + 3*4.186*boils
	near(t, "energy", got.Energy/1000, kilojoule, 1e-6)
	heating := sim.Milliseconds(kilojoule / 0.99 * 1000)
	if got.Heating != heating || got.Fillings != 3 || got.Time != heating+3*sim.Minute {
		t.Errorf("%+v, want %v ms of heating and 3 fillings", got, heating)
	}
	if got.To != boils || got.AboveBoiling {
		t.Errorf("%+v, want water at its boiling point %v", got, boils)
	}
}

// In millionths of a litre, and in US quarts of 946,352,946 billionths: 5 qt
// fill two pots of 2.5 qt.
func TestFillingsAreExact(t *testing.T) {
	for _, c := range []struct{ water, pot, unit, want int64 }{
		{2500000, 2500000, 1000, 1}, {2500001, 2500000, 1000, 2}, {5000000, 2500000, 1000, 2}, {300000, 100000, 1000, 3}, {1, 2500000, 1000, 1}, {0, 5, 1000, 0},
		{20, 10, 236_588_236, 2}, {20, 2, 236_588_236, 10}, {20, 9, 236_588_236, 3}, {21, 10, 236_588_236, 3},
		{math.MaxInt64, 1, 1, math.MaxInt64},
	} {
		litres := func(n int64) *big.Rat {
			return new(big.Rat).Mul(big.NewRat(n, 1_000_000_000), big.NewRat(c.unit, 1))
		}
		if got := fillings(&sim.Melting{Water: litres(c.water), Pot: litres(c.pot)}); got != c.want {
			t.Errorf("%d in pots of %d: %d fillings, want %d", c.water, c.pot, got, c.want)
		}
	}
}

func TestIceHoleWaterOnlyWarms(t *testing.T) {
	m := &sim.Melting{Water: big.NewRat(2, 1), Pot: big.NewRat(1, 1), To: 60, IceHole: true}
	got := Melt(&sim.Site{SnowTemperature: -30, SnowDensity: 200}, &sim.Stove{Power: 2000, Efficiency: 0.5}, m)
	near(t, "energy", got.Energy/1000, 2*4.186*60, 1e-9)
	if got.SnowLitres != 0 {
		t.Errorf("%v L of snow from an ice hole", got.SnowLitres)
	}
}

func TestMeltNeedsPower(t *testing.T) {
	site := &sim.Site{SnowTemperature: -5}
	m := &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1), To: 20, Handling: sim.Minute}
	for _, stove := range []*sim.Stove{
		{Efficiency: 0.5}, {Power: 2000}, {Power: 2000, Efficiency: 0.5, HoldsPots: true},
	} {
		if got := Melt(site, stove, m); got.Time != sim.Never {
			t.Errorf("%+v: melt takes %v, want never", stove, got.Time)
		}
	}
	hole := &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1), IceHole: true, Handling: sim.Minute}
	if got := Melt(site, &sim.Stove{}, hole); got.Time != sim.Minute {
		t.Errorf("water at 0 C as it is takes %v, want its handling", got.Time)
	}
}

func TestPotOnAHeaterGetsItsShare(t *testing.T) {
	stove := &sim.Stove{Power: 7500, Efficiency: 0.65, HoldsPots: true, ToPots: 0.3, Flue: true}
	near(t, "pot", PotPower(stove), 7500*0.65*0.3, 1e-9)
	near(t, "air beside it", StovePower(stove, true), 7500*0.65*0.7, 1e-9)
	near(t, "air alone", StovePower(stove, false), 7500*0.65, 1e-9)
}

func TestWithoutAFlueAllTheHeatStaysInside(t *testing.T) {
	stove := &sim.Stove{Power: 2500, Efficiency: 0.5, HoldsPots: true, ToPots: 0.4}
	near(t, "pot", PotPower(stove), 500, 1e-9)
	near(t, "air alone", StovePower(stove, false), 2500, 1e-9)
	near(t, "air beside it", StovePower(stove, true), 1500, 1e-9)
}

func TestAskingForMoreThanBoilingIsReported(t *testing.T) {
	m := &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1), To: 95}
	stove := &sim.Stove{Power: 2000, Efficiency: 0.5}
	if Melt(&sim.Site{Elevation: 1000}, stove, m).AboveBoiling {
		t.Error("95 C at 1000 m is said to be above boiling")
	}
	if !Melt(&sim.Site{Elevation: 2000}, stove, m).AboveBoiling {
		t.Error("95 C at 2000 m is not said to be above boiling")
	}
}

func TestMeltTimeFallsWithPower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		site := &sim.Site{SnowTemperature: rapid.Float64Range(-50, 0).Draw(t, "snow")}
		m := &sim.Melting{
			Water: big.NewRat(rapid.Int64Range(1, 50e6).Draw(t, "water"), 1e6), Pot: big.NewRat(rapid.Int64Range(1e5, 5e6).Draw(t, "pot"), 1e6),
			To: rapid.Float64Range(0, 100).Draw(t, "to"), Handling: sim.Minute,
		}
		power := rapid.Float64Range(1, 1e4).Draw(t, "power")
		more := power * rapid.Float64Range(1, 10).Draw(t, "times")
		a := Melt(site, &sim.Stove{Power: power, Efficiency: 0.5}, m)
		b := Melt(site, &sim.Stove{Power: more, Efficiency: 0.5}, m)
		if b.Time > a.Time || a.Time < sim.Time(a.Fillings)*sim.Minute {
			t.Fatalf("%v W takes %v ms, %v W takes %v ms", power, a.Time, more, b.Time)
		}
	})
}

// Grams of white gas (44 MJ/kg, 0.70 kg/L) for a litre from -20 C to boiling,
// by efficiency; kerosene at 43.1 MJ/kg: 36.9 g.
func TestFuelForALitre(t *testing.T) {
	const joules = 794.3e3
	gas, ok := FuelNamed("white gas")
	if !ok {
		t.Fatal("no white gas")
	}
	for _, c := range []struct{ efficiency, grams float64 }{{0.3, 60.2}, {0.4, 45.1}, {0.5, 36.1}, {0.6, 30.1}} {
		near(t, "grams", joules/c.efficiency/gas.Heat*gas.Density*1000, c.grams, 0.1)
	}
	near(t, "millilitres", joules/0.5/gas.Heat*1000, 51.6, 0.1)
	kerosene, _ := FuelNamed("kerosene")
	near(t, "grams of kerosene", joules/0.5/kerosene.Heat*kerosene.Density*1000, 36.9, 0.1)
}

func TestFuelsHaveNamesAndOrigins(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Fuels() {
		if f.Name == "" || f.Origin == "" || f.Heat <= 0 || seen[f.Name] || f.ByMass != (f.Density == 0) {
			t.Errorf("%+v", f)
		}
		seen[f.Name] = true
		if got, ok := FuelNamed(f.Name); !ok || got != f {
			t.Errorf("FuelNamed(%q) = %+v, %v", f.Name, got, ok)
		}
	}
	if _, ok := FuelNamed("moonlight"); ok {
		t.Error("moonlight burns")
	}
}
