package heat

import (
	"math"
	"testing"

	"warmby/sim"
)

// Burning naphtha makes about 3.1 kg of carbon dioxide a kg: stoichiometry of
// C7H16 to C8H18 (trade checks, section 9). Propane C3H8: 3 x 44.01 / 44.10 = 2.994;
// butane C4H10: 3.029; ethanol C2H6O: 1.911; all from the molar masses.
func TestFuelsMakeTheCarbonDioxideOfTheirFormulas(t *testing.T) {
	for name, want := range map[string]float64{"white gas": 3.1, "petrol": 3.1, "kerosene": 3.1, "propane": 2.994, "butane": 3.029, "isobutane": 3.029, "alcohol": 1.911} {
		f, _ := FuelNamed(name)
		perKilogram := f.Heat
		if !f.ByMass {
			perKilogram /= f.Density
		}
		near(t, name, f.Exhaust*perKilogram, want, 0.03)
	}
}

// Lower heating values in MJ/kg of an engineering table (trade checks, section 9):
// naphtha 44.9, petrol 43.4, ethanol 26.95, liquid petroleum gas 46.6. The
// program's are from memory, within 2 per cent.
func TestFuelValuesAreThoseOfATable(t *testing.T) {
	for name, want := range map[string]float64{"white gas": 44.9, "petrol": 43.4, "alcohol": 26.95, "propane": 46.6, "butane": 46.6} {
		f, _ := FuelNamed(name)
		perKilogram := f.Heat / 1e6
		if !f.ByMass {
			perKilogram /= f.Density
		}
		near(t, name, perKilogram/want, 1, 0.021)
	}
}

// Boiling points of several handbooks (trade checks, section 9).
func TestFuelGasesBoilWhereHandbooksSay(t *testing.T) {
	for name, want := range map[string]float64{"butane": -0.5, "isobutane": -11.7, "propane": -42.1} {
		if f, ok := FuelNamed(name); !ok || !f.Gas || f.BoilsAt != want {
			t.Errorf("%s: %+v", name, f)
		}
	}
	for _, f := range Fuels() {
		if !f.Gas && f.BoilsAt != 0 {
			t.Errorf("%s is no gas and boils at %v C", f.Name, f.BoilsAt)
		}
	}
}

// By hand: 1 kW of white gas at 44 MJ/kg burns 22.7 mg/s, which makes 70.1 mg/s of
// carbon dioxide (C7H16), 1.59 mmol/s or 37.1 mL/s at 10 C; through 15 m3 at 1.5 /h,
// 6.25 L/s, that is 0.59 %, and with the 0.04 % of fresh air 0.63.
func TestCarbonDioxideIsWhatTheFuelMakesOverTheAirThatGoesThrough(t *testing.T) {
	s := sim.Shelter{Volume: 15, AirChanges: 1.5}
	near(t, "share", CarbonDioxide("white gas", 1000, s, 10, 0), 0.0063, 0.0001)
	near(t, "twice the power", CarbonDioxide("white gas", 2000, s, 10, 0), 0.0004+2*0.00593, 0.0001)
	s.AirChanges = 0
	if !math.IsInf(CarbonDioxide("white gas", 1000, s, 10, 0), 1) {
		t.Error("without fresh air there is no end to it")
	}
	if CarbonDioxide("", 1000, s, 10, 0) != 0 || CarbonDioxide("wood", 0, s, 10, 0) != 0 {
		t.Error("an unknown fuel, and none burnt, make none")
	}
}

// External surface resistance by wind, m2K/W, ISO 6946:2007 Table A.2 (trade
// checks, section 9), against which the U of a single skin of cloth can be no more
// than 1/(Rsi + Rse), Rsi 0.13 (the same table's standard value, from memory).
func TestTentsLoseNoMoreThanTheirSurfacesLet(t *testing.T) {
	for wind, outer := range map[float64]float64{1: 0.08, 2: 0.06, 3: 0.05, 4: 0.04, 5: 0.04, 7: 0.03, 10: 0.02} {
		// 4 + 4 v for the moving air and some 5 W/m2K of radiation, the standard's own
		// form: hc = 4 + 4 v, hr = 5.1 at 0 C with an emissivity of 0.9 (from memory).
		near(t, "resistance", 1/(4+4*wind+0.9*5.1), outer, 0.006)
	}
	near(t, "U of a single wall in 4 m/s", 1/(0.13+0.04), 5.9, 0.05)
	near(t, "U of a double wall", 1/(0.13+0.04+0.17), 2.9, 0.05)
}
