package played

import (
	"fmt"
	"math"
	"testing"

	"warmby/sim"
	"warmby/sim/heat"
)

// within fails unless got is no further from want than tolerance.
func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.4f, want %.4f +- %g", what, got, want, tolerance)
	}
}

// A litre from snow of -20 C at the sea on a stove of 50 %: minutes worked
// from the physics, Q = c_ice 20 + L + c_water 100 = 794.3 kJ (375.7 kJ to
// water at 0 C), as printed with two decimals.
func TestALitreFromSnowTakesWhatItsHeatTakes(t *testing.T) {
	for _, c := range []struct{ kW, boil, melt float64 }{
		{1.5, 17.65, 8.35}, {2, 13.24, 6.26}, {2.5, 10.59, 5.01}, {3, 8.83, 4.17},
	} {
		tl := usual(t, drill(t, "litre", text("a litre",
			"site: {elevation: 0 m, snow: {temperature: -20 C, density: 300 kg/m3}}",
			"people: [{name: Ann}]",
			fmt.Sprintf("stoves: {burner: {power: %g kW, efficiency: 50 %%, fuel: white gas, count: 2}}", c.kW),
			"tasks:",
			"  boil: {melt: {water: 1 L, to: boil, stove: burner}, crew: 0}",
			"  melt: {melt: {water: 1 L, to: 0 C, stove: burner}, crew: 0}"), ""))
		within(t, fmt.Sprintf("boil at %g kW", c.kW), tl.Tasks[0].End.Minutes(), c.boil, 0.005)
		within(t, fmt.Sprintf("melt at %g kW", c.kW), tl.Tasks[1].End.Minutes(), c.melt, 0.0051)
	}
}

// 36.1 g or 51.6 mL of white gas (44 MJ/kg, 0.70 kg/L) boil a litre from
// snow of -20 C at 50 %, whatever the power.
func TestALitreFromSnowBurnsItsFuel(t *testing.T) {
	for _, kW := range []float64{1, 2.5} {
		tl := usual(t, drill(t, "fuel", text("fuel",
			"site: {snow: {temperature: -20 C}}", "people: [{name: Ann}]",
			fmt.Sprintf("stoves: {burner: {power: %g kW, efficiency: 50 %%, fuel: white gas}}", kW),
			"tasks: {boil: {melt: {water: 1 L, to: boil, stove: burner}}}"), ""))
		used := heat.Used(tl)
		if len(used) != 1 {
			t.Fatalf("Used: %d stoves, want 1", len(used))
		}
		within(t, "millilitres", 1000*used[0].Amount, 51.6, 0.05)
	}
}

// Boiling points by elevation: the Antoine equation with the constants of the
// NIST WebBook for 344 to 373 K (Bridgeman and Aldrich 1964) and, to 0.05 K,
// IAPWS-IF97. On a stove of 4.186 kW a litre at 0 C gains one kelvin a second.
func TestWaterBoilsSoonerHigherUp(t *testing.T) {
	for _, c := range []struct{ elevation, antoine, if97 float64 }{
		{0, 100.00, 99.97}, {1000, 96.67, 96.65}, {2000, 93.34, 93.32}, {3000, 90.00, 89.97},
		{4000, 86.64, 86.62}, {5000, 83.28, 83.25}, {6000, 79.90, 79.88},
	} {
		tl := usual(t, drill(t, "boil", text("boil",
			fmt.Sprintf("site: {elevation: %g m}", c.elevation), "people: [{name: Ann}]",
			"stoves: {burner: {power: 4186 W, efficiency: 100 %}}",
			"tasks: {boil: {melt: {water: 1 L, to: boil, stove: burner, from: ice hole}}}"), ""))
		got := tl.Tasks[0].End.Seconds()
		within(t, fmt.Sprintf("boiling point at %g m", c.elevation), got, c.antoine, 0.006)
		within(t, fmt.Sprintf("boiling point at %g m, IF97", c.elevation), got, c.if97, 0.05)
	}
}

// A tent of 35 m2 and 25 m3 at -30 C outside and 5 kW inside, steady state
// dT = Q / (U A + rho c_p n V / 3600), rho = 353/T: what it can hold it
// reaches, and a tenth of a kelvin more never.
func TestATentHoldsWhatItsBalanceSays(t *testing.T) {
	for _, c := range []struct{ u, n, above float64 }{
		{5.7, 1, 23.9}, {3.5, 1, 37.7}, {2.5, 1, 51.2}, {3.5, 3, 32.7},
	} {
		for _, by := range []float64{-0.1, 0.1} {
			tl := usual(t, warmDrill(t, c.u, c.n, 0, -30+c.above+by))
			if reached := tl.Tasks[0].End != sim.Never; reached != (by < 0) {
				t.Errorf("U %g, n %g: %.1f K above outside reached: %v, want %v", c.u, c.n, c.above+by, reached, by < 0)
			}
		}
	}
}

// The time constant C/H of that tent: at 1 - 1/e of what it can hold. For a
// tent of about 36 kJ/K of air and H of about 130 W/K, 280 s with the air
// alone and 740 s with 60 kJ/K of contents, in round figures.
func TestATentWarmsWithItsTimeConstant(t *testing.T) {
	const round = 0.03 // the figures are given to two digits for a similar tent
	to := -30 + 37.7*(1-1/math.E)
	for _, c := range []struct{ contents, seconds float64 }{{0, 280}, {60, 740}} {
		tl := usual(t, warmDrill(t, 3.5, 1, c.contents, to))
		within(t, fmt.Sprintf("time constant with %g kJ/K", c.contents), tl.Tasks[0].End.Seconds(), c.seconds, c.seconds*round)
	}
}

// warmDrill warms a tent of 35 m2 and 25 m3 with 5 kW from -30 C.
func warmDrill(t testing.TB, u, n, contents, to float64) *sim.Drill {
	return drill(t, "warm", text("warm",
		"weather: [{at: 0 min, air: -30 C}]", "people: [{name: Ann}]",
		fmt.Sprintf("shelters: {tent: {volume: 25 m3, skin: 35 m2, u: %g W/m2K, air changes: %g /h, contents: %g kJ/K}}", u, n, contents),
		"stoves: {heater: {power: 10 kW, efficiency: 50 %, flue: true}}",
		fmt.Sprintf("tasks: {warm: {warm: {shelter: tent, stove: heater, to: %.3f C}, crew: 0}}", to)), "")
}

// Civil twilight ends (the sun at -6 degrees) by libastro, pressure 0; the
// first is also published as 16:06. Work that takes twice as long in the dark
// tells when it grew dark: of an hour's work, t done by then, the rest takes
// 2 (60 - t), so it ends at 120 - t.
func TestWorkSlowsWhenItGrowsDark(t *testing.T) {
	const tolerance = 2 // minutes, for the low-precision sun
	for _, c := range []struct {
		place, site string
		minutes     float64 // from arrival to the end of civil twilight
	}{
		{"Fairbanks 2012-12-21, 16:05:47", "latitude: 64.8378, longitude: -147.7164, arrival: 2012-12-21T15:30:00-09:00", 35.78},
		{"Anchorage 2018-12-21, 16:43:46", "latitude: 61.2181, longitude: -149.9003, arrival: 2018-12-21T16:20:00-09:00", 23.77},
		{"Yellowknife 2024-01-15, 16:47:46", "latitude: 62.454, longitude: -114.3718, arrival: 2024-01-15T16:00:00-07:00", 47.77},
	} {
		d := drill(t, c.place, text("dusk", "site: {"+c.site+"}", "people: [{name: Ann}]",
			"tasks: {dig: {work: 60 min, slowed: [{when: dark, to: 200 %}]}}",
			"milestones: {done: {when: dig, by: dark}}"), "")
		tl := usual(t, d)
		within(t, c.place+": end", tl.Tasks[0].End.Minutes(), 120-c.minutes, tolerance)
		within(t, c.place+": by dark", d.Milestones[0].By.Minutes(), c.minutes, tolerance)
		if got, want := tl.Tasks[0].End, 2*sim.Hour-d.Milestones[0].By; got != want {
			t.Errorf("%s: work ends at %s, want %s by the drill's own dusk", c.place, sim.Clock(got), sim.Clock(want))
		}
	}
}

// The default teamwork is a choice, and documented as one. Ringelmann (1913,
// ropes; as given by bvop.org and others) found for each of n people of a team
// this share of what one pulls alone; n^0.9 people's worth gives beside it:
//
//	people          1      2      3      8
//	Ringelmann   1.00  0.937  0.847  0.492
//	n^0.9 / n    1.00  0.933  0.896  0.812
//
// So two are alike and eight are not: pulling at one rope is worse than camp
// work is taken to be, and crews are seldom larger than four. Learning from
// one time to the next (Wright, 80 % curve: 100, 80, 64 on average after 1, 2,
// 4) is no part of a drill, which is done once.
func TestDefaultTeamworkStandsBesideRingelmann(t *testing.T) {
	for _, c := range []struct {
		n                  int
		ringelmann, ours   float64
		alike, tooGenerous bool
	}{
		{1, 1, 1, true, false}, {2, 0.937, 0.933, true, false}, {3, 0.847, 0.896, false, true}, {8, 0.492, 0.812, false, true},
	} {
		got := float64(sim.Effective(c.n, sim.DefaultTeamwork)) / sim.WorkUnit / float64(c.n)
		within(t, fmt.Sprintf("share of each of %d", c.n), got, c.ours, 0.0005)
		if alike := math.Abs(got-c.ringelmann) < 0.005; alike != c.alike || (got > c.ringelmann+0.005) != c.tooGenerous {
			t.Errorf("%d people: %.3f beside Ringelmann's %.3f, the comparison above says otherwise", c.n, got, c.ringelmann)
		}
	}
	// A file that says nothing gets it: two do 20 person-minutes in 20/2^0.9.
	tl := usual(t, drill(t, "pair", text("pair", "people: [{name: Ann}, {name: Bo}]", "tasks: {dig: {work: 20 min, crew: 2}}"), ""))
	within(t, "minutes of a pair", tl.Tasks[0].End.Minutes(), 20/(2*0.933), 0.01)
}
