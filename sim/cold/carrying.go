package cold

import "math"

// March is a person on the move with a pack.
type March struct {
	Body  float64 // kg
	Load  float64 // kg carried
	Speed float64 // m/s
	Grade float64 // per cent, uphill
	// Terrain is the factor eta: 1 on a hard road, see [Terrains] and
	// [SnowTerrain].
	Terrain float64
}

// Watts returns the metabolic rate of carrying a load, in watts:
//
//	1.5 W + 2.0 (W + L) (L/W)^2 + eta (W + L) (1.5 V^2 + 0.35 V G)
//
// Source: Pandolf, Givoni, Goldman, J Appl Physiol 43:577 (1977). It stands
// for 0.6 to 2.2 m/s on the level or uphill.
func (m March) Watts() Value {
	switch {
	case !(m.Body > 0) || !(m.Load >= 0) || !(m.Terrain > 0) || !finite(m.Body+m.Load+m.Terrain):
		return noValue("weights and terrain are not known")
	case !(m.Speed >= 0.6 && m.Speed <= 2.2):
		return noValue("speed outside 0.6 to 2.2 m/s: the formula ends there")
	case !(m.Grade >= 0) || !finite(m.Grade):
		return noValue("downhill: the formula does not go there")
	}
	ratio := m.Load / m.Body
	return value(1.5*m.Body + 2*(m.Body+m.Load)*ratio*ratio +
		m.Terrain*(m.Body+m.Load)*(1.5*m.Speed*m.Speed+0.35*m.Speed*m.Grade))
}

// SnowTerrain returns the terrain factor of snow in which feet sink so many
// centimetres: 1.30 + 0.082 D.
//
// From memory (very likely right): Pandolf, Haisman, Goldman, Ergonomics
// 19:683 (1976); level ground, 0.67 to 1.12 m/s. The deepest print of the
// older table is 35 cm; beyond 40 cm there is no value.
func SnowTerrain(printCm float64) Value {
	switch {
	case !(printCm >= 0):
		return noValue("the depth of the footprint is not known")
	case printCm > 40:
		return noValue("footprint over 40 cm: the formula ends there")
	}
	return value(1.30 + 0.082*printCm)
}

// Terrain is a kind of ground with its factor.
type Terrain struct {
	What   string
	Factor float64
}

// Terrains returns kinds of ground. From memory (very likely right): Soule
// and Goldman, J Appl Physiol 32:706 (1972).
func Terrains() []Terrain {
	return []Terrain{
		{"hard road", 1.0}, {"dirt road", 1.1}, {"light brush", 1.2}, {"heavy brush", 1.5},
		{"bog", 1.8}, {"loose sand", 2.1},
		{"soft snow, footprint 15 cm", 2.5}, {"soft snow, footprint 25 cm", 3.3}, {"soft snow, footprint 35 cm", 4.1},
	}
}

// SnowOxygen returns the litres of oxygen that a person of 60 kg spends on a
// kilometre of loose snow in which feet sink so many centimetres:
// 9.0 + 1.27 X^1.038.
//
// Source: Ramaswamy and others, J Appl Physiol 21:1747 (1966), up to 37 cm;
// deeper, the cost "rises asymptotically" and there is no value.
func SnowOxygen(printCm float64) Value {
	switch {
	case !(printCm >= 0):
		return noValue("the depth of the footprint is not known")
	case printCm > 37:
		return noValue("footprint over 37 cm: the formula ends there")
	}
	return value(9.0 + 1.27*math.Pow(printCm, 1.038))
}

// Sled is a sled that one person pulls.
type Sled struct {
	Weight float64 // kg on snow, the sled's own included, per person pulling
	// Friction is the coefficient of friction on snow. From memory (plausible
	// only): 0.03 to 0.10 on cold dry snow, more below -20 C.
	Friction float64
}

const (
	gravity = 9.81 // m/s2
	// muscle is the share of metabolic power that becomes pull. From memory
	// (very likely right): 20 to 25 per cent.
	muscle = 0.25
)

// Hauling returns the metabolic rate in watts of walking and pulling a sled:
// that of the walk, and the pull, weight g (friction + grade) times speed,
// over 0.25. It is our own estimate, built from values from memory.
func (m March) Hauling(s Sled) Value {
	walk := m.Watts()
	if !walk.OK() {
		return walk
	}
	if !(s.Weight >= 0) || !(s.Friction >= 0) || !finite(s.Weight+s.Friction) {
		return noValue("weight and friction of the sled are not known")
	}
	return value(walk.X + s.Weight*gravity*(s.Friction+m.Grade/100)*m.Speed/muscle)
}

// BodyArea returns the skin of a person in m2: 0.007184 kg^0.425 cm^0.725.
// From memory (very likely right): DuBois and DuBois, 1916. Watts over it are
// the W/m2 of [Body].
func BodyArea(kg, cm float64) float64 {
	return 0.007184 * math.Pow(kg, 0.425) * math.Pow(cm, 0.725)
}
