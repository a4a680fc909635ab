package heat

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

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
			{Name: "heater", Count: 1, Power: 7500, Efficiency: 0.65, FuelHeat: 30.8e6, HoldsPots: true, ToPots: 0.3, Flue: true},
			{Name: "burner", Count: 2, Power: 2200, Efficiency: 0.45, FuelHeat: 46.4e6, FuelByMass: true},
			{Name: "spare", Count: 1, Power: 100},
		},
		Shelters: []sim.Shelter{tent()},
		Spots:    []sim.Spot{{In: -1}},
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
	alone, shared := 7500*0.65, 7500*0.65*0.7
	story := []told{
		{2 * min, Terms{tent(), -22, 200, Full, alone, 0}},
		{5 * min, Terms{tent(), -22, 200, Full, shared, 0}},
		{8 * min, Terms{banked, -22, 200, Full, shared, 0}},
		{10 * min, Terms{banked, -26, 200, Full, shared, 0}},
		{12 * min, Terms{banked, -26, 200, Full, alone, 0}},
		{22 * min, Terms{banked, -26, 200, Keeping, alone, 15}},
	}
	c := Curves(evening())[0]
	if c.Name != "tent" || c.Shelter != 0 || c.Task != -1 {
		t.Fatalf("first curve is of %q, shelter %d, task %d", c.Name, c.Shelter, c.Task)
	}
	if first := c.Points[0]; first != (Point{2 * min, -22}) {
		t.Errorf("begins with %+v, want the air outside at minute 2", first)
	}
	if last := c.Points[len(c.Points)-1]; last.At != 40*min {
		t.Errorf("ends with %+v, want the end of the timeline, minute 40", last)
	}
	for i, p := range c.Points {
		if i > 0 && (p.At <= c.Points[i-1].At || p.At-c.Points[i-1].At > sampling) {
			t.Errorf("point %d at %v after %v", i, p.At, c.Points[i-1].At)
		}
		want, _ := stepped(-22, story, p.At)
		near(t, "temperature", p.C, want, 2e-3)
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
	length := float64(tl.Tasks[3].End - tl.Tasks[3].Start - 2*sim.Minute) // handling comes after
	at := func(kilojoule float64) sim.Time {
		return tl.Tasks[3].Start + sim.Time(math.Round(length*kilojoule/total))
	}
	want := []Point{{5 * sim.Minute, -12}, {at(ice), 0}, {at(ice + melting), 0}, {at(total), 90}, {tl.Tasks[3].End, 90}}
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

// putOut adds a task that puts out the heater at a moment, at a spot.
func putOut(tl *sim.Timeline, at sim.Time, spot int) {
	tl.Drill.Tasks = append(tl.Drill.Tasks, sim.Task{Name: "put out the heater", Kind: sim.Takes, Item: -1, PutsOut: []int{0}, Spot: spot})
	tl.Tasks = append(tl.Tasks, sim.TaskTimes{Start: at - sim.Minute, Worked: at, End: at, Unit: -1})
}

func TestFuelCountsAStoveOnce(t *testing.T) {
	tl := evening()
	putOut(tl, 22*sim.Minute, 0)
	uses := Used(tl)
	near(t, "hours of the heater", uses[0].Hours, 20.0/60, 1e-9)
	near(t, "its litres", uses[0].Amount, 7500*20*60/30.8e6, 1e-9)
	burner := (tl.Tasks[3].End - tl.Tasks[3].Start + 10*sim.Minute).Seconds()
	near(t, "hours of the burners", uses[1].Hours, burner/3600, 1e-9)
	near(t, "their kilograms", uses[1].Amount, 2200*burner/46.4e6, 1e-9)
	if !uses[1].ByMass || uses[0].ByMass || !uses[0].Known || uses[0].Keeping != 0 {
		t.Errorf("uses %+v", uses)
	}
	if uses[2].Hours != 0 || uses[2].Amount != 0 || uses[2].Known {
		t.Errorf("spare stove used: %+v", uses[2])
	}
}

func TestFuelOfOverlapsAndGapsOnOneStove(t *testing.T) {
	const min = sim.Minute
	tl := evening()
	putOut(tl, 22*min, 0)
	// Before, reaching into, inside and apart from the warm-up of 2 to 22.
	for _, c := range []struct {
		from, to sim.Time
		want     float64 // minutes
	}{{0, 1 * min, 21}, {1 * min, 5 * min, 21}, {3 * min, 4 * min, 20}, {20 * min, 25 * min, 23}, {22 * min, 23 * min, 21}, {30 * min, 31 * min, 21}} {
		tl.Tasks[1].Called, tl.Tasks[1].Start, tl.Tasks[1].End = c.from, c.from, c.to
		near(t, "minutes", Used(tl)[0].Hours*60, c.want, 1e-9)
	}
}

// Kept at 5 C from minute 22 to 35: H (5 + 26) less 200 W of people, over the
// 65 % that the flue leaves; at full power while a pot is on it from 25 to 27.
func TestFuelCountsUntilTheStoveIsOut(t *testing.T) {
	const min = sim.Minute
	tl := evening()
	putOut(tl, 35*min, 0)
	tl.Tasks[1].Called, tl.Tasks[1].Start, tl.Tasks[1].End = 25*min, 25*min, 27*min
	tl.Drill.Tasks[0].Warm.To = 5
	rooms := RoomsOf(tl)
	if c, ok := rooms[0].Temperature(22 * min); !ok || c < 5 {
		t.Fatalf("%v C at the end of the warm-up: the test wants it kept from there on", c)
	}
	if out, ok := rooms[0].Out(); !ok || out != 35*min {
		t.Errorf("out at %v", out)
	}
	uses := Used(tl)
	near(t, "hours", uses[0].Hours, 33.0/60, 1e-9)
	near(t, "litres while warming up and under the pot", uses[0].Amount-uses[0].Keeping, 7500*22*60/30.8e6, 1e-9)
	banked := tent()
	banked.AirChanges = 0.4
	keep := Terms{banked, -26, 200, Keeping, 7500 * 0.65, 5}
	pot := keep
	pot.Stove *= 0.7
	c, _ := rooms[0].Temperature(22 * min)
	b := Start(22*min, c, keep)
	before := b.Gives(22*min, 25*min)
	b.Change(25*min, pot)
	b.Change(27*min, keep)
	near(t, "litres of keeping", uses[0].Keeping, (before+b.Gives(27*min, 35*min))/0.65/30.8e6, 1e-9)
	near(t, "at the end, cooled for 5 min", last(Curves(tl)[0].Points).C, -26+(5+26)*math.Exp(-5*60*Loss(banked, -26)/Capacity(banked, -26))+
		200/Loss(banked, -26)*(1-math.Exp(-5*60*Loss(banked, -26)/Capacity(banked, -26))), 0.05)
}

func last(points []Point) Point { return points[len(points)-1] }

// At a spot in another shelter the task leaves this heater burning; outdoors it
// puts out all; before the warm-up has ended it does nothing.
func TestWhichStovesArePutOut(t *testing.T) {
	const min = sim.Minute
	for _, c := range []struct {
		what string
		spot int
		at   sim.Time
		out  sim.Time
	}{
		{"in the open", 0, 30 * min, 30 * min}, {"in the tent", 1, 30 * min, 30 * min}, {"in the hut", 2, 30 * min, 40 * min},
		{"under way", 0, 20 * min, 40 * min}, {"as the warm-up ends", 0, 22 * min, 22 * min},
	} {
		tl := evening()
		tl.Drill.Shelters = append(tl.Drill.Shelters, sim.Shelter{Name: "hut"})
		tl.Drill.Spots = []sim.Spot{{In: -1}, {In: 0}, {In: 1}}
		putOut(tl, c.at, c.spot)
		if out, _ := RoomsOf(tl)[0].Out(); out != c.out {
			t.Errorf("%s: out at %v, want %v", c.what, sim.Clock(out), sim.Clock(c.out))
		}
	}
}

// Whole degrees are those of the temperature at each moment, rounded half up.
func TestDegreesFollowTheTemperature(t *testing.T) {
	tl := evening()
	putOut(tl, 30*sim.Minute, 0)
	tl.End = 3 * sim.Hour
	warm := 8.0
	tl.Drill.Shelters = append(tl.Drill.Shelters, sim.Shelter{Name: "hut", Volume: 20, Skin: 40, U: 1, Contents: 1e5, AtStart: &warm})
	for _, room := range RoomsOf(tl) {
		if len(room.Degrees) < 30 {
			t.Fatalf("%d numbers of degrees", len(room.Degrees))
		}
		for i, d := range room.Degrees {
			to := tl.End
			if i+1 < len(room.Degrees) {
				to = room.Degrees[i+1].From
			}
			if to <= d.From {
				t.Fatalf("degrees %d at %v, and the next at %v", d.C, d.From, to)
			}
			for _, at := range []sim.Time{d.From + 1, (d.From + to) / 2, to - 1} {
				if c, _ := room.Temperature(at); to > d.From+2 && math.Abs(min(c, mildest)-float64(d.C)) > 0.5001 {
					t.Errorf("%v C counts as %d at %v", c, d.C, sim.Clock(at))
				}
			}
		}
	}
}

func TestReadingRoomsAgainTakesNoMemory(t *testing.T) {
	tl := evening()
	putOut(tl, 30*sim.Minute, 0)
	r := NewRooms(tl.Drill)
	first := len(r.Read(tl)[0].Degrees)
	if n := testing.AllocsPerRun(100, func() { r.Read(tl) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
	if again := len(r.Read(tl)[0].Degrees); again != first {
		t.Errorf("%d degrees, then %d", first, again)
	}
}

func TestAStoveWithAPotOnItGoesOutWhenTheMeltHasEnded(t *testing.T) {
	tl := evening()
	putOut(tl, 30*sim.Minute, 0)
	tl.Tasks[1] = sim.TaskTimes{Called: 28 * sim.Minute, Start: 29 * sim.Minute, Worked: 33 * sim.Minute, End: 33 * sim.Minute}
	if out, _ := RoomsOf(tl)[0].Out(); out != 33*sim.Minute {
		t.Errorf("out at %v, want when the melt has ended", sim.Clock(out))
	}
}

func TestAPotThatOnlyComesDoesNotHoldTheStove(t *testing.T) {
	tl := evening()
	putOut(tl, 30*sim.Minute, 0)
	tl.Tasks[1] = sim.TaskTimes{Called: 30 * sim.Minute, Start: 30 * sim.Minute, Worked: 33 * sim.Minute, End: 33 * sim.Minute}
	if out, _ := RoomsOf(tl)[0].Out(); out != 30*sim.Minute {
		t.Errorf("out at %v, want when it is put out", sim.Clock(out))
	}
}

// A mishap lasts from 20 to 22 min: the tent is kept as warm as it is asked for, and
// the stove burns what that takes.
func TestDuringAMishapTheTemperatureIsKept(t *testing.T) {
	tl := evening()
	putOut(tl, 22*sim.Minute, 0)
	tl.Tasks[0].Worked = 20 * sim.Minute
	before, _ := RoomsOf(tl)[0].Temperature(20 * sim.Minute)
	tl.Drill.Tasks[0].Warm.To = before
	if c, _ := RoomsOf(tl)[0].Temperature(22 * sim.Minute); math.Abs(c-before) > 1e-9 {
		t.Errorf("%v C after the mishap, %v before it", c, before)
	}
	uses := Used(tl)
	near(t, "hours", uses[0].Hours, 20.0/60, 1e-9)
	near(t, "litres at full power", uses[0].Amount-uses[0].Keeping, 7500*18*60/30.8e6, 1e-9)
	if uses[0].Keeping <= 0 || uses[0].Keeping >= 7500*2*60/30.8e6 {
		t.Errorf("%v L for two minutes of keeping warm", uses[0].Keeping)
	}
}

// Over a whole evening, from the first fire to the end, heat in from stove and
// people is heat stored and lost, whatever weather, makes and pots do.
func TestEnergyClosesOverATimeline(t *testing.T) {
	tl := evening()
	tl.End = 2 * sim.Hour
	tl.Drill.Tasks[0].Warm.To = 5
	putOut(tl, 80*sim.Minute, 0)
	room := RoomsOf(tl)[0]
	var in, out float64
	for i := range room.Spans {
		s := &room.Spans[i]
		if s.From < room.Lit {
			continue
		}
		in += s.Gives() + s.Terms.People*(s.To-s.From).Seconds()
		out += Capacity(s.Terms.Shelter, s.Terms.Outside)*(s.Temperature(s.To)-s.Temperature(s.From)) +
			Loss(s.Terms.Shelter, s.Terms.Outside)*degreeSeconds(&s.balance, s.Terms.Outside, s.From, s.To)
	}
	near(t, "of the heat that comes in, not accounted for", (in-out)/in, 0, 1e-6)
	if in < 5e6 {
		t.Errorf("only %v J came in", in)
	}
}

// A longer lit stove never burns less.
func TestALongerLitStoveNeverBurnsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := sim.Time(rapid.Int64Range(22*60000, 90*60000).Draw(t, "out"))
		later := at + sim.Time(rapid.Int64Range(0, 20*60000).Draw(t, "later"))
		used := func(at sim.Time) FuelUse {
			tl := evening()
			tl.End = 2 * sim.Hour
			tl.Drill.Tasks[0].Warm.To = 5
			putOut(tl, at, 0)
			return Used(tl)[0]
		}
		if a, b := used(at), used(later); b.Amount < a.Amount || b.Hours < a.Hours {
			t.Fatalf("out at %v: %+v, at %v: %+v", sim.Clock(at), a, sim.Clock(later), b)
		}
	})
}
