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
}

// Fuels returns the fuels that a stove may name, liquids first. Heating
// values per kilogram times density give those per litre.
func Fuels() []Fuel {
	return []Fuel{
		// LHV 44 MJ/kg MEMORY; density READ (ess.co.at).
		liquid("white gas", 44.0e6, 0.70, "naphtha: 44.0 MJ/kg from memory, 0.70 kg/L as published"),
		// LHV 43.1 MJ/kg MEMORY (HHV 46.4 READ, CRC); density READ 0.79 to 0.807.
		liquid("kerosene", 43.1e6, 0.80, "43.1 MJ/kg from memory, 0.79 to 0.807 kg/L as published"),
		// LHV 43.4 MJ/kg MEMORY (HHV 46.5 READ, CRC); density READ (Staffell).
		liquid("petrol", 43.4e6, 0.741, "43.4 MJ/kg from memory, 0.741 kg/L as published"),
		// MEMORY: ethanol, LHV 26.8 MJ/kg, 0.79 kg/L.
		liquid("alcohol", 26.8e6, 0.79, "ethanol: 26.8 MJ/kg and 0.79 kg/L from memory"),
		// LHV 46.4 MJ/kg MEMORY (HHV 50.3 READ, CRC).
		solid("propane", 46.4e6, "46.4 MJ/kg from memory"),
		// LHV 45.7 MJ/kg MEMORY.
		solid("butane", 45.7e6, "45.7 MJ/kg from memory"),
		// READ (world-nuclear.org): 16 MJ/kg air dry, range 14 to 20.
		solid("wood", 16.0e6, "firewood, air dry: 16 MJ/kg as published, range 14 to 20"),
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

func liquid(name string, perKilogram, density float64, origin string) Fuel {
	return Fuel{Name: name, Heat: perKilogram * density, Density: density, Origin: origin}
}

func solid(name string, perKilogram float64, origin string) Fuel {
	return Fuel{Name: name, Heat: perKilogram, ByMass: true, Origin: origin}
}
