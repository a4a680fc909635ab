package scenarios

import (
	"math/big"
	"testing"
)

func TestQuantitiesInEveryUnit(t *testing.T) {
	for _, c := range []struct {
		d    *dimension
		text string
		want string // in the dimension's first unit, as a fraction
	}{
		{inTime, "20 min", "1200000"}, {inTime, "20min", "1200000"}, {inTime, "1h20min", "4800000"}, {inTime, "1 h 20 min 30 s", "4830000"},
		{inTime, "1h30s", "3630000"}, {inTime, "0.0005 s", "1/2"}, {inTime, "1.5 h", "5400000"}, {inTime, " 2 s ", "2000"},
		{inTemperature, "-40 F", "-40"}, {inTemperature, "32 °F", "0"}, {inTemperature, "273.15 K", "0"}, {inTemperature, "-4F", "-20"}, {inTemperature, "+3 C", "3"},
		// 28.8 km/h is 8 m/s; the knot is 1852 m an hour, the statute mile 1609.344 m.
		{inSpeed, "28.8 km/h", "8"}, {inSpeed, "1 kt", "1852/3600"}, {inSpeed, "1 mph", "1609.344/3600"},
		{inLength, "1 yd", "0.9144"}, {inLength, "1 ft", "0.3048"}, {inLength, "1 in", "0.0254"}, {inLength, "850 mm", "0.85"},
		{inMass, "1 lb", "0.45359237"}, {inMass, "16 oz", "0.45359237"}, {inMass, "250 g", "1/4"},
		{inVolume, "1 gal", "3.785411784"}, {inVolume, "4 qt", "3.785411784"}, {inVolume, "250 mL", "1/4"},
		{inPower, "2.2 kW", "2200"}, {inShare, "12.5 %", "1/8"}, {inShare, "12.5%", "1/8"}, {inChanges, "0.8 /h", "4/5"}, {inChanges, "0.8/h", "4/5"},
		{inDensity, "240 kg/m³", "240"}, {inLoss, "5.9 W/m2K", "59/10"}, {inHeat, "60 kJ/K", "60"}, {inClothing, "3.5 clo", "7/2"},
	} {
		got, why, _ := parseQuantity(c.text, c.d)
		want, ok := fraction(c.want)
		if why != "" || !ok || got.Cmp(want) != 0 {
			t.Errorf("parseQuantity(%q) = %v %s, want %v", c.text, got, why, want)
		}
	}
}

// fraction reads "a/b" with decimals on both sides.
func fraction(s string) (*big.Rat, bool) {
	for i := range s {
		if s[i] == '/' {
			a, okA := new(big.Rat).SetString(s[:i])
			b, okB := new(big.Rat).SetString(s[i+1:])
			if !okA || !okB {
				return nil, false
			}
			return a.Quo(a, b), true
		}
	}
	return new(big.Rat).SetString(s)
}

func TestQuantitiesRefused(t *testing.T) {
	for _, text := range []string{"", " ", "min", "5", "0", "-", "+", ".", "5.", ".5 min", "5. min", "05 min", "00 min", "-05 min", "5 Min", "5 min s", "5 min 5 min",
		"1h-20min", "-1h20min", "1h 20", "5,5 min", "1_000 s", "1e3 s", "0x10 s", "NaN s", "Infinity s", "5 min!", "5\u00a0min", "٥ min", "9999999999999999999999999 s"} {
		if v, why, _ := parseQuantity(text, inTime); why == "" {
			t.Errorf("parseQuantity(%q) = %v, want a refusal", text, v)
		}
	}
}

func TestRoundsHalfAwayFromZero(t *testing.T) {
	for _, c := range []struct {
		of   string
		want int64
	}{{"1/2", 1}, {"-1/2", -1}, {"49/100", 0}, {"-49/100", 0}, {"3/2", 2}, {"5/2", 3}, {"-5/2", -3}, {"7", 7}} {
		if got := round(rat(c.of)).Int64(); got != c.want {
			t.Errorf("round(%s) = %d, want %d", c.of, got, c.want)
		}
	}
}

func TestNearestName(t *testing.T) {
	known := []string{"pitch the tent", "light the heater", "axe"}
	for _, c := range []struct{ wrong, want string }{
		{"pitch teh tent", "pitch the tent"}, {"Pitch The Tent", "pitch the tent"}, {"lite the heater", "light the heater"}, {"ax", "axe"}, {"exa", ""}, {"saw", ""}, {"", ""},
	} {
		if got := nearest(c.wrong, known); got != c.want {
			t.Errorf("nearest(%q) = %q, want %q", c.wrong, got, c.want)
		}
	}
}

func TestDecimalsEndInADigit(t *testing.T) {
	for value, want := range map[string]string{"1.0001": "1", "10.0001": "10", "2.5": "2.5", "20": "20"} {
		v, _ := new(big.Rat).SetString(value)
		if got := decimal(v); got != want {
			t.Errorf("decimal(%s) = %q, want %q", value, got, want)
		}
	}
}
