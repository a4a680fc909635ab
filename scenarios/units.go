package scenarios

import "math/big"

// A dimension is what a quantity measures, with the units that it may be
// given in. A value is kept in the first unit of the list.
type dimension struct {
	is      string // in a message: "a length of time"
	units   []unit
	example string
}

// unit turns a number into the dimension's first unit: (number + shift) * factor.
type unit struct {
	name   string
	factor *big.Rat
	shift  *big.Rat // nil for none
}

func u(name, factor string) unit { return unit{name: name, factor: rat(factor)} }

// rat reads a number or a fraction written in this package.
func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("scenarios: not a number: " + s)
	}
	return r
}

// The dimensions. Inches, pounds, gallons and what follows from them are
// exact by definition (international yard and pound of 1959, US gallon of 231
// cubic inches, statute mile, nautical mile of 1852 m). A Btu is that of the
// International Table, 1055.05585262 J.
var (
	// timeUnits come largest first after s, as they stand in "1h20min".
	inTime = &dimension{is: "a length of time", example: "20 min",
		units: []unit{u("ms", "1"), u("s", "1000"), u("min", "60000"), u("h", "3600000")}}
	inTemperature = &dimension{is: "a temperature", example: "-12 C", units: []unit{
		u("C", "1"), u("°C", "1"),
		{"F", rat("5/9"), rat("-32")}, {"°F", rat("5/9"), rat("-32")},
		{"K", rat("1"), rat("-273.15")},
	}}
	inSpeed = &dimension{is: "a speed", example: "8 m/s",
		units: []unit{u("m/s", "1"), u("km/h", "5/18"), u("mph", "0.44704"), u("kt", "463/900")}}
	inLength = &dimension{is: "a length", example: "85 cm",
		units: []unit{u("m", "1"), u("mm", "0.001"), u("cm", "0.01"), u("in", "0.0254"), u("ft", "0.3048"), u("yd", "0.9144")}}
	inMass = &dimension{is: "a weight", example: "14 kg",
		units: []unit{u("kg", "1"), u("g", "0.001"), u("lb", "0.45359237"), u("oz", "0.028349523125")}}
	inVolume = &dimension{is: "a volume of water", example: "3 L",
		units: []unit{u("L", "1"), u("mL", "0.001"), u("qt", "0.946352946"), u("gal", "3.785411784")}}
	inPower = &dimension{is: "a power", example: "2.2 kW",
		units: []unit{u("W", "1"), u("kW", "1000"), u("Btu/h", "0.29307107017222222")}}
	inDensity  = &dimension{is: "a density", example: "240 kg/m3", units: []unit{u("kg/m3", "1"), u("kg/m³", "1")}}
	inLoss     = &dimension{is: "a heat loss", example: "5.9 W/m2K", units: []unit{u("W/m2K", "1"), u("W/m²K", "1")}}
	inHeat     = &dimension{is: "a heat capacity", example: "60 kJ/K", units: []unit{u("kJ/K", "1")}}
	inChanges  = &dimension{is: "a number of air changes", example: "0.8 /h", units: []unit{u("/h", "1")}}
	inClothing = &dimension{is: "an insulation of clothing", example: "3.5 clo", units: []unit{u("clo", "1")}}
	inShare    = &dimension{is: "a share", example: "20 %", units: []unit{u("%", "0.01")}}
	inRoom     = &dimension{is: "a volume of air", example: "14 m3", units: []unit{u("m3", "1"), u("m³", "1"), u("ft3", "0.028316846592")}}
	inArea     = &dimension{is: "an area", example: "26 m2", units: []unit{u("m2", "1"), u("m²", "1"), u("ft2", "0.09290304")}}
)

// names lists the units for people, without other spellings of the same.
func (d *dimension) names() []string {
	var names []string
	for _, u := range d.units {
		switch u.name {
		case "ms", "°C", "°F", "kg/m³", "W/m²K", "m³", "m²":
		default:
			names = append(names, u.name)
		}
	}
	return names
}
