package heat

// Fuel is a kind of fuel.
type Fuel struct {
	Name string
	// Heat is the lower heating value, water leaving as vapour: joules per
	// litre, or per kilogram when ByMass.
	Heat   float64
	ByMass bool
	// Density is kg per litre; 0 when the fuel is counted by mass.
	Density float64
	Origin  string // where the numbers come from, for people
	// BoilsAt is where a fuel gas boils at sea level, in degrees C; Gas says that it
	// is one. In colder air it leaves its bottle as vapour no more.
	BoilsAt float64
	Gas     bool
	// Exhaust is the carbon dioxide that burning a joule of it makes, in kg.
	Exhaust float64
}

// Fuels returns the fuels that a stove may name, liquids first. Heating
// values per kilogram times density give those per litre.
func Fuels() []Fuel {
	return []Fuel{
		// LHV 44 MJ/kg MEMORY; density READ (ess.co.at).
		liquid("white gas", 44.0e6, 0.70, 7, 16, "naphtha: 44.0 MJ/kg from memory, 0.70 kg/L as published"),
		// LHV 43.1 MJ/kg MEMORY (HHV 46.4 READ, CRC); density READ 0.79 to 0.807.
		liquid("kerosene", 43.1e6, 0.80, 12, 26, "43.1 MJ/kg from memory, 0.79 to 0.807 kg/L as published"),
		// LHV 43.4 MJ/kg MEMORY (HHV 46.5 READ, CRC); density READ (Staffell).
		liquid("petrol", 43.4e6, 0.741, 8, 18, "43.4 MJ/kg from memory, 0.741 kg/L as published"),
		// MEMORY: ethanol, LHV 26.8 MJ/kg, 0.79 kg/L; C2H6O.
		alcohol(26.8e6, 0.79, "ethanol: 26.8 MJ/kg and 0.79 kg/L from memory"),
		// LHV 46.4 MJ/kg MEMORY (HHV 50.3 READ, CRC). Boiling points READ, handbooks.
		gas("propane", 46.4e6, -42.1, 3, 8, "46.4 MJ/kg from memory"),
		// LHV 45.7 MJ/kg MEMORY.
		gas("butane", 45.7e6, -0.5, 4, 10, "45.7 MJ/kg from memory"),
		// LHV 45.6 MJ/kg MEMORY.
		gas("isobutane", 45.6e6, -11.7, 4, 10, "45.6 MJ/kg from memory"),
		// READ (world-nuclear.org): 16 MJ/kg air dry, range 14 to 20. Half of dry wood is
		// carbon, a fifth of air dry wood is water: both MEMORY.
		wood(16.0e6, 0.5*0.8, "firewood, air dry: 16 MJ/kg as published, range 14 to 20"),
	}
}

// FuelNamed returns the fuel of a name.
func FuelNamed(name string) (Fuel, bool) {
	for _, f := range Fuels() {
		if f.Name == name {
			return f, true
		}
	}
	return Fuel{}, false
}

// Molar masses in g/mol.
const (
	carbonMass   = 12.011
	hydrogenMass = 1.008
	oxygenMass   = 15.999
	dioxideMass  = carbonMass + 2*oxygenMass
)

// hydrocarbon returns the kg of carbon dioxide that a kg of CnHm makes: every
// atom of carbon becomes a molecule.
func hydrocarbon(n, m float64) float64 { return n * dioxideMass / (n*carbonMass + m*hydrogenMass) }

func liquid(name string, perKilogram, density, carbon, hydrogen float64, origin string) Fuel {
	return Fuel{Name: name, Heat: perKilogram * density, Density: density, Origin: origin, Exhaust: hydrocarbon(carbon, hydrogen) / perKilogram}
}

func alcohol(perKilogram, density float64, origin string) Fuel {
	made := 2 * dioxideMass / (2*carbonMass + 6*hydrogenMass + oxygenMass)
	return Fuel{Name: "alcohol", Heat: perKilogram * density, Density: density, Origin: origin, Exhaust: made / perKilogram}
}

func gas(name string, perKilogram, boilsAt, carbon, hydrogen float64, origin string) Fuel {
	return Fuel{Name: name, Heat: perKilogram, ByMass: true, Origin: origin, BoilsAt: boilsAt, Gas: true, Exhaust: hydrocarbon(carbon, hydrogen) / perKilogram}
}

func wood(perKilogram, carbon float64, origin string) Fuel {
	return Fuel{Name: "wood", Heat: perKilogram, ByMass: true, Origin: origin, Exhaust: carbon * dioxideMass / carbonMass / perKilogram}
}
