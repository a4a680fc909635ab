package heat

import (
	"math"
	"math/big"
	"testing"

	"warmby/sim"
)

// evening is a timeline made by hand: a tent is warmed on a heater on which a
// pot stands for a while, the skirt is banked and the weather turns; another
// pot stands on a burner, and a third is still on it in the end.
func evening() *sim.Timeline {
	const min = sim.Minute
	n := 0.4
	d := &sim.Drill{
		Site: sim.Site{SnowTemperature: -12},
		Stoves: []sim.Stove{
			{Name: "heater", Count: 1, Power: 7500, Efficiency: 0.65, FuelHeat: 30.8e6, HoldsPots: true, ToPots: 0.3},
			{Name: "burner", Count: 2, Power: 2200, Efficiency: 0.45, FuelHeat: 46.4e6, FuelByMass: true},
			{Name: "spare", Count: 1, Power: 100},
		},
		Shelters: []sim.Shelter{tent()},
		Tasks: []sim.Task{
			{Name: "warm the tent", Kind: sim.Warm, Warm: &sim.Warming{Stove: 0, To: 15, People: 2}},
			{Name: "melt on the heater", Kind: sim.Melt, Melt: &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1), To: 50, Stove: 0}},
			{Name: "bank the skirt", Kind: sim.Work, Makes: []sim.Make{{Shelter: 0, AirChanges: &n}}},
			{Name: "melt for tea", Kind: sim.Melt, Melt: &sim.Melting{Water: big.NewRat(2, 1), Start: big.NewRat(1, 2), Pot: big.NewRat(1, 1), To: 90, Stove: 1, Handling: sim.Minute}},
			{Name: "melt for bottles", Kind: sim.Melt, Melt: &sim.Melting{Water: big.NewRat(9, 1), Pot: big.NewRat(1, 1), To: 90, Stove: 1}},
			{Name: "melt for nobody", Kind: sim.Melt, Melt: &sim.Melting{Water: big.NewRat(1, 1), Pot: big.NewRat(1, 1), To: 90, Stove: 1}},
		},
		Weather: []sim.WeatherCase{{}, {Rows: []sim.WeatherRow{{At: 0, Air: -22}, {At: 10 * min, Air: -26}}}},
	}
	tea := 5*min + Melt(&d.Site, &d.Stoves[1], d.Tasks[3].Melt).Time
	never := sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Unit: -1}
	return &sim.Timeline{
		Drill: d,
		Luck:  &sim.Luck{Weather: 1},
		Tasks: []sim.TaskTimes{
			{Start: 2 * min, Worked: 22 * min, End: 22 * min},
			{Start: 5 * min, Worked: 12 * min, End: 12 * min},
			{Start: 0, Worked: 8 * min, End: 8 * min, Unit: -1},
			{Start: 5 * min, Worked: tea, End: tea, Unit: 0},
			{Start: 30 * min, Worked: sim.Never, End: sim.Never, Unit: 1},
			never,
		},
		End: 40 * min,
	}
}

func TestShelterCurveWalksTheChanges(t *testing.T) {
	const min = sim.Minute
	banked := tent()
	banked.AirChanges = 0.4
	alone, shared := 7500*0.65+200, 7500*0.65*0.7+200
	changes := []change{
		{2 * min, Surroundings{tent(), alone, -22}},
		{5 * min, Surroundings{tent(), shared, -22}},
		{8 * min, Surroundings{banked, shared, -22}},
		{10 * min, Surroundings{banked, shared, -26}},
		{12 * min, Surroundings{banked, alone, -26}},
	}
	c := Curves(evening())[0]
	if c.Name != "tent" || !c.Shelter || c.Task != 0 {
		t.Fatalf("first curve is of %q, task %d", c.Name, c.Task)
	}
	if first := c.Points[0]; first != (Point{2 * min, -22}) {
		t.Errorf("begins with %+v, want the air outside at minute 2", first)
	}
	if last := c.Points[len(c.Points)-1]; last.At != 22*min {
		t.Errorf("ends with %+v, want minute 22", last)
	}
	for i, p := range c.Points {
		if i > 0 && (p.At <= c.Points[i-1].At || p.At-c.Points[i-1].At > sampling) {
			t.Errorf("point %d at %v after %v", i, p.At, c.Points[i-1].At)
		}
		sofar := 1
		for sofar < len(changes) && changes[sofar].at < p.At {
			sofar++
		}
		near(t, "temperature", p.C, integrate(changes[:sofar], p.At), 1e-7)
	}
}

func TestPotCurveMeltsThenWarms(t *testing.T) {
	tl := evening()
	curves := Curves(tl)
	if len(curves) != 4 {
		t.Fatalf("%d curves, want one of the tent and three of pots", len(curves))
	}
	tea := curves[2]
	// Snow 1.5 kg from -12 C, melted, then 2 kg of water to 90 C.
	ice, melting, water := 1.5*2.108*12, 1.5*333.55, 2*4.186*90
	total := ice + melting + water
	length := float64(tl.Tasks[3].End - tl.Tasks[3].Start)
	at := func(kilojoule float64) sim.Time {
		return tl.Tasks[3].Start + sim.Time(math.Round(length*kilojoule/total))
	}
	want := []Point{{5 * sim.Minute, -12}, {at(ice), 0}, {at(ice + melting), 0}, {tl.Tasks[3].End, 90}}
	if len(tea.Points) != len(want) {
		t.Fatalf("points %v, want %v", tea.Points, want)
	}
	for i := range want {
		if d := tea.Points[i].At - want[i].At; d < -1 || d > 1 || tea.Points[i].C != want[i].C {
			t.Errorf("point %d is %v, want %v", i, tea.Points[i], want[i])
		}
	}
	bottles := curves[3].Points
	if last := bottles[len(bottles)-1]; last.At != tl.End || last.C != 0 {
		t.Errorf("9 L after ten minutes: %v, want still melting at the end of the timeline", last)
	}
}

func TestFuelCountsAStoveOnce(t *testing.T) {
	tl := evening()
	uses := Used(tl)
	near(t, "hours of the heater", uses[0].Hours, 20.0/60, 1e-9)
	near(t, "its litres", uses[0].Amount, 7500*20*60/30.8e6, 1e-9)
	burner := (tl.Tasks[3].End - tl.Tasks[3].Start + 10*sim.Minute).Seconds()
	near(t, "hours of the burners", uses[1].Hours, burner/3600, 1e-9)
	near(t, "their kilograms", uses[1].Amount, 2200*burner/46.4e6, 1e-9)
	if !uses[1].ByMass || uses[0].ByMass || !uses[0].Known {
		t.Errorf("uses %+v", uses)
	}
	if uses[2].Hours != 0 || uses[2].Amount != 0 || uses[2].Known {
		t.Errorf("spare stove used: %+v", uses[2])
	}
}

func TestFuelOfOverlapsAndGapsOnOneStove(t *testing.T) {
	const min = sim.Minute
	tl := evening()
	// Before, reaching into, inside and apart from the warm-up of 2 to 22.
	for _, c := range []struct {
		from, to sim.Time
		want     float64 // minutes
	}{{0, 1 * min, 21}, {1 * min, 5 * min, 21}, {3 * min, 4 * min, 20}, {20 * min, 25 * min, 23}, {22 * min, 23 * min, 21}, {30 * min, 31 * min, 21}} {
		tl.Tasks[1].Start, tl.Tasks[1].End = c.from, c.to
		near(t, "minutes", Used(tl)[0].Hours*60, c.want, 1e-9)
	}
}
