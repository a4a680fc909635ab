package heat

import (
	"math"
	"math/big"

	"warmby/sim"
)

// The heat of water in joules per kilogram, and per kilogram and kelvin. A
// litre of water is a kilogram.
const (
	iceHeat   = 2108.0
	fusion    = 333550.0
	waterHeat = 4186.0
)

// Melted is what a melt takes.
type Melted struct {
	// Time is the length of the task: heating, rounded once, plus handling
	// of each filling; sim.Never when the stove gives no heat.
	Time    sim.Time
	Heating sim.Time // the part of Time during which the stove heats
	Energy  float64  // joules into the water
	// Fillings is how many pots it takes: water / pot, rounded up.
	Fillings int64
	// SnowLitres is how many litres of snow make a litre of water; 0 when the
	// density is unknown or the water comes from an ice hole.
	SnowLitres float64
	To         float64 // temperature of the water in the end, degrees C
	// BoilsAt is the boiling point at the site in degrees C. AboveBoiling
	// says that the melt asks for more, which water cannot do.
	BoilsAt      float64
	AboveBoiling bool
}

// Melt returns what a melt at a site takes on a stove.
func Melt(site *sim.Site, stove *sim.Stove, m *sim.Melting) Melted {
	out := Melted{Energy: MeltEnergy(site, m), Fillings: fillings(m)}
	out.BoilsAt, _ = BoilingPoint(site.Elevation)
	out.To = finalTemperature(site, m)
	out.AboveBoiling = out.To > out.BoilsAt
	if !m.IceHole && site.SnowDensity > 0 {
		out.SnowLitres = 1000 / site.SnowDensity
	}
	power := PotPower(stove)
	switch {
	case out.Energy <= 0:
	case !(power > 0):
		out.Time, out.Heating = sim.Never, sim.Never
		return out
	default:
		out.Heating = sim.Milliseconds(out.Energy / power * 1000)
	}
	out.Time = out.Heating + handling(out.Fillings, m.Handling)
	return out
}

// MeltEnergy returns the heat that a melt at a site asks for, in joules: with
// snow at T degrees C and water brought to T1,
//
//	(water - start) (2.108 (0 - T) + 333.55) + water 4.186 T1   kJ
//
// and water 4.186 T1 from an ice hole, whose water is at 0 C.
func MeltEnergy(site *sim.Site, m *sim.Melting) float64 {
	return iceEnergy(site, m) + fusionEnergy(m) + waterEnergy(site, m)
}

// iceEnergy brings the snow to 0 C.
func iceEnergy(site *sim.Site, m *sim.Melting) float64 {
	return snow(m) * float64(iceHeat*max(0, -site.SnowTemperature))
}

// fusionEnergy turns the snow at 0 C to water.
func fusionEnergy(m *sim.Melting) float64 { return float64(snow(m) * fusion) }

// waterEnergy heats all the water.
func waterEnergy(site *sim.Site, m *sim.Melting) float64 {
	return float64(litres(m.Water) * waterHeat * max(0, finalTemperature(site, m)))
}

// snow returns the kilograms of snow that a melt takes.
func snow(m *sim.Melting) float64 {
	if m.IceHole {
		return 0
	}
	if m.Start == nil {
		return litres(m.Water)
	}
	return max(0, litres(new(big.Rat).Sub(m.Water, m.Start)))
}

// litres returns the float64 nearest to a volume.
func litres(v *big.Rat) float64 {
	f, _ := v.Float64()
	return f
}

func finalTemperature(site *sim.Site, m *sim.Melting) float64 {
	if m.Boil {
		to, _ := BoilingPoint(site.Elevation)
		return to
	}
	return m.To
}

// fillings returns ceil(water / pot), exactly; one pot when its size is not
// given.
func fillings(m *sim.Melting) int64 {
	if m.Pot == nil {
		return 1
	}
	pots := new(big.Rat).Quo(m.Water, m.Pot)
	n, rest := new(big.Int).QuoRem(pots.Num(), pots.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		n.Add(n, big.NewInt(1))
	}
	if !n.IsInt64() {
		return math.MaxInt64
	}
	return n.Int64()
}

// handling returns n times each, but never more than about three years.
func handling(n int64, each sim.Time) sim.Time {
	longest := sim.Milliseconds(math.Inf(1))
	if each > 0 && n > int64(longest/each) {
		return longest
	}
	return sim.Time(n) * each
}

// PotPower returns the watts that go into a pot on a stove: power times
// efficiency, of which a stove that holds pots while it warms a shelter gives
// them only its share.
func PotPower(stove *sim.Stove) float64 {
	if stove.HoldsPots {
		return stove.Power * stove.Efficiency * stove.ToPots
	}
	return stove.Power * stove.Efficiency
}
