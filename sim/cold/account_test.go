package cold

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/heat"
)

// camp is a drill for timelines made by hand: spot 0 is the centre, 1 lies in
// the tent, 2 is a post half sheltered. Task 0 is work, 1 puts layers on, 2
// warms the tent.
func camp(rows ...sim.WeatherRow) *sim.Drill {
	d := &sim.Drill{
		Spots:    []sim.Spot{{Name: "centre", In: -1}, {Name: "tent", In: 0, Walk: sim.Minute}, {Name: "post", In: -1, Sheltered: 0.5, Walk: 30 * sim.Second}},
		Shelters: []sim.Shelter{{Name: "tent", Volume: 25, Skin: 35, U: 3.5, AirChanges: 1, Contents: 60000}},
		Stoves:   []sim.Stove{{Name: "heater", Power: 9000, Efficiency: 1}},
		Tasks: []sim.Task{
			{Name: "tramp", Kind: sim.Work, Item: -1, Effort: sim.High},
			{Name: "layers", Kind: sim.Takes, Item: -1, LayersOn: true},
			{Name: "warm", Kind: sim.Warm, Item: -1, Warm: &sim.Warming{To: 10}, Spot: 1},
		},
		Lookouts: []sim.Lookout{{Name: "post", Spot: 2}},
		People:   []sim.Person{{Name: "Aila", March: 1.6, Halt: 3.5}},
	}
	if len(rows) > 0 {
		d.Weather = []sim.WeatherCase{{Rows: rows}}
	}
	return d
}

func cold26() sim.WeatherRow { return sim.WeatherRow{Air: -26, Wind: 4, Humidity: 0.85} }

// played puts the stretches of one person after the other from 0 on; tasks
// end when said, or never; a warm-up begins five minutes before.
func played(d *sim.Drill, ends map[int]sim.Time, stretches ...sim.Stretch) *sim.Timeline {
	tl := &sim.Timeline{Drill: d, Luck: &sim.Luck{}}
	for i := range d.Tasks {
		times := sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Unit: -1}
		if end, ok := ends[i]; ok {
			start := max(0, end-5*sim.Minute)
			times = sim.TaskTimes{Called: start, Start: start, Worked: end, End: end}
		}
		tl.Tasks = append(tl.Tasks, times)
	}
	at := sim.Time(0)
	for i := range stretches {
		stretches[i].From, stretches[i].To = at, at+stretches[i].To
		at = stretches[i].To
	}
	tl.People = [][]sim.Stretch{stretches}
	tl.End = at
	return tl
}

func free(spot int, length sim.Time) sim.Stretch {
	return sim.Stretch{What: sim.Free, Task: -1, Lookout: -1, Spot: spot, Origin: spot, To: length}
}

func waits(spot int, length sim.Time) sim.Stretch {
	return sim.Stretch{What: sim.Ready, Task: 0, Lookout: -1, Spot: spot, Origin: spot, To: length}
}

func work(task, spot int, length sim.Time) sim.Stretch {
	return sim.Stretch{What: sim.Working, Task: task, Lookout: -1, Spot: spot, Origin: spot, To: length}
}

func watch(length sim.Time) sim.Stretch {
	return sim.Stretch{What: sim.Watching, Task: -1, Spot: 2, Origin: 2, To: length}
}

func walk(from, to int, length sim.Time) sim.Stretch {
	return sim.Stretch{What: sim.Walking, Task: 0, Lookout: -1, Spot: to, Origin: from, To: length}
}

func stored(m, clo, air, wind float64) float64 {
	return Balance(Body{M: m}, Clothing{Clo: clo}, Ambient{Air: air, Radiant: air, Wind: wind, Humidity: 0.85})
}

func TestAccountPassesTheLimitAfterTheStandardsDLE(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := rapid.Float64Range(-50, 0).Draw(t, "air")
		wind := rapid.Float64Range(0, 20).Draw(t, "wind")
		rh := rapid.Float64Range(0, 1).Draw(t, "humidity")
		clo := rapid.Float64Range(0.5, 4).Draw(t, "clo")
		effort := sim.Effort(rapid.IntRange(int(sim.Resting), int(sim.VeryHigh)).Draw(t, "effort"))
		d := camp(sim.WeatherRow{Air: air, Wind: wind, Humidity: rh})
		d.People[0].March = clo
		d.Tasks[0].Effort = effort
		p := Account(played(d, nil, work(0, 0, 12*sim.Hour)))[0]

		e := Assess(Minimal, Body{M: Rate(effort)}, Clothing{Clo: clo}, Ambient{Air: air, Radiant: air, Wind: 0.65 * wind, Humidity: rh})
		if e.Stored != p.Ledger[0].S {
			t.Fatalf("the account stores %v W/m2, the standard %v", p.Ledger[0].S, e.Stored)
		}
		if !e.Limited.OK() {
			return
		}
		if got := hours(p.PassedAt); p.PassedAt == sim.Never || got < e.Limited.X-1e-9 || got > e.Limited.X+hours(1) {
			t.Fatalf("passed after %v h, DLE is %v h", got, e.Limited.X)
		}
	})
}

// 90 W/m2, 2.5 clo, -10 C and 0.4 m/s at the body: DLE minimal 2.020 h (the
// third regression row of ireq_test.go).
func TestAccountPassesTheLimitWhereTheRegressionRowDoes(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -10, Wind: 0.4 / 0.65, Humidity: 0.85})
	d.People[0].March = 2.5
	m := Body{M: 90, Walk: 0.3}
	s := Balance(m, Clothing{Clo: 2.5}, Outdoors(d.Steps(0)[0], d.Spots[0]))
	near(t, "hours to the limit", hours(after(0, s)), 2.020, 0.01)
}

func TestDebtAddsUpAndComesBack(t *testing.T) {
	d := camp(cold26())
	p := Account(played(d, nil, free(0, 20*sim.Minute), work(0, 0, 10*sim.Minute), free(0, sim.Minute), work(0, 0, 5*sim.Hour)))[0]
	wind := 0.65 * 4.0
	rest, busy := stored(100, 1.6, -26, wind), stored(230, 1.6, -26, wind)
	if rest >= 0 {
		t.Fatalf("rest stores %v W/m2", rest)
	}
	debt := -rest / 3
	near(t, "debt after 20 min", p.Ledger[0].Debt, debt, 1e-9)
	debt = max(0, debt-busy/6)
	near(t, "debt after 10 min of work", p.Ledger[1].Debt, debt, 1e-9)
	debt -= rest / 60
	near(t, "debt after another minute", p.Ledger[2].Debt, debt, 1e-9)
	near(t, "debt in the end", p.Ledger[3].Debt, max(0, debt-busy*5), 1e-9)
}

func TestLayersAreWornFromTheEndOfTheTask(t *testing.T) {
	d := camp(cold26())
	p := Account(played(d, map[int]sim.Time{1: 7 * sim.Minute}, watch(5*sim.Minute), free(0, 10*sim.Minute)))[0]
	type seen struct {
		from, to sim.Time
		clo      float64
	}
	want := []seen{{0, 5 * sim.Minute, 3.5}, {5 * sim.Minute, 7 * sim.Minute, 1.6}, {7 * sim.Minute, 15 * sim.Minute, 3.5}}
	if len(p.Ledger) != len(want) {
		t.Fatalf("%d entries, want %d: %+v", len(p.Ledger), len(want), p.Ledger)
	}
	for i, e := range p.Ledger {
		if got := (seen{e.From, e.To, e.Clo}); got != want[i] {
			t.Errorf("entry %d is %+v, want %+v", i, got, want[i])
		}
	}
}

// Until the warm-up begins the tent is outdoors, from then on its air counts in
// whole degrees, at the least air movement; on the way and at the post it blows.
func TestPlacesAlongADrill(t *testing.T) {
	d := camp(cold26())
	p := Account(played(d, map[int]sim.Time{2: 30 * sim.Minute}, free(1, 60*sim.Minute), walk(1, 2, 2*sim.Minute), free(2, sim.Minute)))[0]
	first, inside := p.Ledger[0], p.Ledger[1]
	n := len(p.Ledger)
	lastIn, way, post := p.Ledger[n-3], p.Ledger[n-2], p.Ledger[n-1]
	if first.Indoors || first.To != 25*sim.Minute || first.Air != -26 || first.M != 100 {
		t.Errorf("before the warm-up: %+v", first)
	}
	if !inside.Indoors || inside.Shelter != 0 || inside.Air != -26 || inside.Wind != 0 || inside.M != 65 || inside.From != 25*sim.Minute {
		t.Errorf("as it begins: %+v", inside)
	}
	if !lastIn.Indoors || lastIn.Air != 10 || lastIn.S <= inside.S {
		t.Errorf("kept warm: %+v", lastIn)
	}
	for i := 1; i < n-2; i++ {
		if e, before := p.Ledger[i], p.Ledger[i-1]; e.Air < before.Air || e.Air > before.Air+1 {
			t.Errorf("%v C after %v C", e.Air, before.Air)
		}
	}
	near(t, "wind on the way", way.Wind, 2.6, 1e-12)
	near(t, "wind at the post", post.Wind, 1.3, 1e-12)
	if way.Indoors || way.M != 165 || post.Indoors {
		t.Errorf("way %+v, post %+v", way, post)
	}
	if len(p.Outings) != 2 || p.Outings[0].Length() != 25*sim.Minute || p.Outings[1].Length() != 3*sim.Minute || p.Longest != 0 {
		t.Errorf("outings %+v, longest %d", p.Outings, p.Longest)
	}
}

// Damp takes its share until 30 min without a break at 10 C or more are over.
func TestDampLeavesAfterHalfAnHourInTheWarm(t *testing.T) {
	d := camp(cold26())
	d.People[0].Damp = 0.2
	warm := 20.0
	d.Shelters[0].AtStart, d.Shelters[0].Contents = &warm, 1e9 // stays at 20 C
	p := Account(played(d, nil, free(1, 29*sim.Minute), walk(1, 1, sim.Minute), free(1, 31*sim.Minute), walk(1, 0, sim.Minute)))[0]
	want := []struct {
		to  sim.Time
		clo float64
	}{{29 * sim.Minute, 1.28}, {30 * sim.Minute, 1.28}, {60 * sim.Minute, 1.28}, {61 * sim.Minute, 1.6}, {62 * sim.Minute, 1.6}}
	if len(p.Ledger) != len(want) {
		t.Fatalf("%d entries, want %d: %+v", len(p.Ledger), len(want), p.Ledger)
	}
	for i, w := range want {
		if e := p.Ledger[i]; e.To != w.to || math.Abs(e.Clo-w.clo) > 1e-12 {
			t.Errorf("entry %d: %v clo to %v, want %v to %v", i, e.Clo, e.To, w.clo, w.to)
		}
	}
	// Dry clothes on do at once.
	d.Tasks[0].DryClothes = true
	tl := played(d, map[int]sim.Time{0: 10 * sim.Minute}, work(0, 0, 10*sim.Minute), free(0, sim.Minute))
	tl.Tasks[0].People = []int{0}
	damp := worn(1.6, 0.2)
	if p := Account(tl)[0]; p.Ledger[0].Clo != damp || p.Ledger[1].Clo != 1.6 {
		t.Errorf("dry clothes: %+v", p.Ledger)
	}
	tl.Tasks[0].People = nil // somebody else's
	if p := Account(tl)[0]; p.Ledger[1].Clo != damp {
		t.Errorf("somebody else's dry clothes: %+v", p.Ledger)
	}
}

// After layers on: halt for efforts up to low and for lookouts, march above, what
// a task says on it, and on the way what was worn before.
func TestClothingFollowsEffort(t *testing.T) {
	d := camp(cold26())
	d.Tasks = append(d.Tasks,
		sim.Task{Name: "cook", Kind: sim.Takes, Item: -1, Effort: sim.Low},
		sim.Task{Name: "dig in down", Kind: sim.Work, Item: -1, Effort: sim.High, Worn: sim.WornHalt},
		sim.Task{Name: "sit in the anorak", Kind: sim.Takes, Item: -1, Worn: sim.WornMarch})
	const min = sim.Minute
	tl := played(d, map[int]sim.Time{1: 4 * min}, work(3, 0, min), work(4, 0, min), walk(0, 2, min), work(3, 0, 2*min),
		walk(0, 0, min), work(0, 0, min), walk(0, 0, min), watch(min), walk(0, 0, min), work(5, 0, min), free(0, min))
	var got []float64
	for _, e := range Account(tl)[0].Ledger {
		got = append(got, e.Clo)
	}
	want := []float64{1.6, 3.5, 3.5, 1.6, 3.5, 3.5, 1.6, 1.6, 3.5, 3.5, 1.6, 3.5}
	if !slices.Equal(got, want) {
		t.Errorf("clothing %v, want %v", got, want)
	}
	// Layers that each puts on are on one by one.
	d.People = append(d.People, d.People[0])
	d.Tasks[1].Each, d.Tasks[1].Who = "layers", []int{1}
	tl = played(d, map[int]sim.Time{1: 0}, free(0, min))
	tl.People = append(tl.People, tl.People[0])
	people := Account(tl)
	if people[0].Ledger[0].Clo != 1.6 || people[1].Ledger[0].Clo != 3.5 {
		t.Errorf("own layers: %v and %v clo", people[0].Ledger[0].Clo, people[1].Ledger[0].Clo)
	}
}

// Who is free goes in: a minute's walk in the wind, inside, and back in time.
func TestWhoIsFreeGoesIn(t *testing.T) {
	d := camp(cold26())
	const min = sim.Minute
	stretches := []sim.Stretch{work(0, 0, 30*min), free(0, 30*min), work(0, 0, min)}
	tl := played(d, map[int]sim.Time{2: 30 * min}, slices.Clone(stretches)...)
	p := Account(tl)[0]
	var in []Entry
	for _, e := range p.Ledger {
		if e.GoneIn {
			in = append(in, e)
		}
	}
	n := len(in)
	if n < 3 || in[0].What != sim.Walking || in[0].From != 30*min || in[0].To != 31*min || in[0].Spot != 1 || in[0].M != 165 ||
		!in[1].Indoors || in[1].M != 65 || in[n-2].To != 59*min || in[n-1].What != sim.Walking || in[n-1].Spot != 0 || in[n-1].To != 60*min {
		t.Errorf("gone in: %+v", in)
	}
	d.Idle.StayOut = true
	if again := Account(tl)[0]; again.Peak < p.Peak || slices.ContainsFunc(again.Ledger, func(e Entry) bool { return e.GoneIn }) {
		t.Errorf("told to stay out: %+v", again.Ledger)
	}
}

// By hand: 230 W/m2 in 3.5 clo at -22 C and still air store some 100 W/m2 and more
// (an independent program of ISO 11079: +100 at -22 C), which is 267 g an hour.
func TestSweatIsWhatIsOverZeroWithNothingToWinBack(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -22, Humidity: 0.85})
	d.Tasks[0].Worn = sim.WornHalt
	p := Account(played(d, nil, work(0, 0, sim.Hour)))[0]
	s := stored(230, 3.5, -22, 0)
	near(t, "stored", s, 100, 12)
	near(t, "grams", p.Sweat, s*1.8/0.675, 1e-9)
	if len(p.Sweats) != 1 || p.Sweats[0].Task != 0 || !p.Sweats[0].Halt || p.Sweats[0].Time != sim.Hour {
		t.Errorf("sweats %+v", p.Sweats)
	}
	// What is lost first must be won back first.
	d.Idle.Effort = sim.Resting
	p = Account(played(d, nil, free(0, sim.Hour), work(0, 0, sim.Hour)))[0]
	lost := -stored(65, 1.6, -22, 0)
	near(t, "grams after an hour of rest", p.Sweat, max(0, s-lost)*1.8/0.675, 1e-9)
	// Inside at low effort people open what is too warm.
	warm := 25.0
	d.Shelters[0].AtStart = &warm
	d.Shelters[0].Contents = 1e9
	p = Account(played(d, nil, free(1, sim.Hour)))[0]
	if p.Sweat != 0 || p.Ledger[0].Air != 10 {
		t.Errorf("rest inside: %v g, air %v", p.Sweat, p.Ledger[0].Air)
	}
	if p = Account(played(d, nil, work(0, 1, sim.Hour)))[0]; p.Sweat == 0 {
		t.Error("hard work inside in the down jacket brings no sweat")
	}
}

func TestVerdictsFollowTheThreeAccounts(t *testing.T) {
	for _, c := range []struct {
		least, peak, most float64
		want              Verdict
	}{
		{0, 0, 39.9, Within}, {10, 20, 40, Near}, {39.9, 45, 70, Near}, {40, 50, 60, Over}, {40, 119.9, 300, Over}, {41, 120, 300, FarOver},
	} {
		if got := verdict(c.least, c.peak, c.most); got != c.want {
			t.Errorf("verdict(%v, %v, %v) = %v, want %v", c.least, c.peak, c.most, got, c.want)
		}
	}
	// An hour of a lookout: the rate 20 % higher loses less, 20 % lower more. 70
	// less 20 % is under the 58 W/m2 at which the standard begins.
	d := camp(cold26())
	d.People[0].Halt = 2
	p := Account(played(d, nil, watch(sim.Hour)))[0]
	near(t, "as it is", p.Peak, -stored(70, 2, -26, 1.3), 1e-9)
	near(t, "20 % more", p.Least, -stored(84, 2, -26, 1.3), 1e-9)
	near(t, "20 % less", p.Most, -stored(58, 2, -26, 1.3), 1e-9)
}

func TestNoValueHasItsReason(t *testing.T) {
	hurt := 10 * sim.Minute
	for _, c := range []struct {
		what   string
		change func(d *sim.Drill)
		why    string
	}{
		{"thaw", func(d *sim.Drill) { d.Weather[0].Rows[0].Air = 1 }, "air over 0 C"},
		{"bare", func(d *sim.Drill) { d.People[0].March = 0.25 }, "clothing under 0.3 clo"},
		{"gale", func(d *sim.Drill) { d.Weather[0].Rows[0].Wind = 30 }, "more than 18 m/s"},
		{"casualty", func(d *sim.Drill) { d.People[0].Casualty = true }, "casualty"},
		{"hurt", func(d *sim.Drill) { d.People[0].Hurt = &hurt }, ""},
		{"at 0 C", func(d *sim.Drill) { d.Weather[0].Rows[0].Air = 0 }, ""},
	} {
		d := camp(cold26())
		c.change(d)
		tl := played(d, nil, free(0, 20*sim.Minute))
		p, peak := Account(tl)[0], NewMeter(d).Peaks(tl, nil)[0]
		if c.why == "" {
			if p.Why != "" || !peak.Known {
				t.Errorf("%s: %q", c.what, p.Why)
			}
			continue
		}
		if !strings.Contains(p.Why, c.why) || p.Verdict != NoVerdict || p.Ledger != nil || p.Peak != 0 || peak.Known || peak.PassedAt != sim.Never {
			t.Errorf("%s: %+v, the meter says %+v", c.what, p, peak)
		}
	}
	d := camp(cold26())
	d.People[0].Hurt = &hurt
	tl := played(d, nil, free(0, 20*sim.Minute))
	p := Account(tl)[0]
	if n := len(p.Ledger); p.Until != hurt || p.Ledger[n-1].To != hurt || p.RelieveBy != sim.Never || NewMeter(d).Peaks(tl, nil)[0].Debt != p.Peak {
		t.Errorf("hurt after 10 min: %+v", p)
	}
}

func TestLimitIsPassedAtTheInterpolatedMoment(t *testing.T) {
	d := camp(cold26(), sim.WeatherRow{At: 30 * sim.Minute, Air: -30, Wind: 10, Humidity: 0.85})
	d.People[0].March = 3
	p := Account(played(d, nil, waits(0, 10*sim.Hour)))[0]
	before := stored(70, 3, -26, 2.6)
	later := stored(70, 3, -30, 6.5)
	debt := -before / 2
	if debt >= HeatLimit {
		t.Fatalf("passed before the weather changes: %v", debt)
	}
	want := 0.5 + (HeatLimit-debt)/-later
	near(t, "passed after hours", hours(p.PassedAt), want, hours(1))
	// The schedule for light work at -30 C and 36 km/h: no work (-32 C row).
	if p.RelieveBy != p.PassedAt || p.BySchedule {
		t.Errorf("relieve by %v, passed at %v", p.RelieveBy, p.PassedAt)
	}
	near(t, "margin", p.Margin(), HeatLimit-p.Peak, 0)
	if p.PeakAt != 10*sim.Hour || p.Margin() >= 0 {
		t.Errorf("peak %v at %v", p.Peak, p.PeakAt)
	}
	// the weather's worst, at 36 km/h
	near(t, "wind chill", p.Chill.X, WindChill(-30, 36).X, 0)
	near(t, "frostbite", p.Frostbite.X, FrostbiteTime(-30, 36).X, 0)
	if p.ChillAt != 30*sim.Minute || p.Hazard != HazardHigh {
		t.Errorf("chill at %v, %v", p.ChillAt, p.Hazard)
	}
}

func TestReliefIsForetoldBeyondTheEnd(t *testing.T) {
	d := camp(cold26())
	d.People = append(d.People, sim.Person{Name: "Berend", March: 1.2, Halt: 3})
	tl := played(d, nil, waits(0, 10*sim.Minute))
	tl.People = append(tl.People, []sim.Stretch{watch(10 * sim.Minute)})
	people := Account(tl)
	r := Reliefs(people)
	if len(r) != 2 || r[0].Person != 0 || r[1].Person != 1 || !r[0].After || r[0].By > r[1].By {
		t.Fatalf("reliefs %+v", r)
	}
	for i, clo := range []float64{1.6, 3} {
		step, spot := d.Steps(0)[0], d.Spots[2*i]
		limit, ok := StandingLimit(clo, 0, sim.EffortUnset, spot, step)
		if d := limit - people[i].RelieveBy; !ok || d < -1 || d > 1 {
			t.Errorf("%s: relieve by %v, can stand %v", people[i].Name, people[i].RelieveBy, limit)
		}
	}
	tl.People[0][0].To = 20 * sim.Hour
	if r := Reliefs(Account(tl)); r[0].After || r[0].Doing.What != sim.Ready {
		t.Errorf("passed within the drill: %+v", r[0])
	}
}

func TestStandingLimit(t *testing.T) {
	step := sim.Step{Weather: true, Air: -26, Wind: 8, Humidity: 0.85}
	open, lee := sim.Spot{In: -1}, sim.Spot{In: -1, Sheltered: 0.8}
	dry, ok := StandingLimit(2.5, 0, sim.EffortUnset, open, step)
	near(t, "hours", hours(dry), -HeatLimit/stored(70, 2.5, -26, 5.2), hours(1))
	if !ok {
		t.Error("clothing and weather are known")
	}
	if damp, _ := StandingLimit(2.5, 0.3, sim.EffortUnset, open, step); damp >= dry {
		t.Errorf("damp lasts %v, dry %v", damp, dry)
	}
	if sheltered, _ := StandingLimit(2.5, 0, sim.EffortUnset, lee, step); sheltered <= dry {
		t.Errorf("in the lee %v, in the open %v", sheltered, dry)
	}
	if warm, ok := StandingLimit(4, 0, sim.EffortUnset, lee, sim.Step{Weather: true, Air: 9, Humidity: 0.5}); !ok || warm != sim.Never {
		t.Errorf("at 9 C in 4 clo: %v", warm)
	}
	if _, ok := StandingLimit(0, 0, sim.EffortUnset, open, step); ok {
		t.Error("without clothing there is no limit")
	}
	if _, ok := StandingLimit(2, 0, sim.EffortUnset, open, sim.Step{}); ok {
		t.Error("without weather there is no limit")
	}
}

func TestScheduleIsReadForEachOuting(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -35, Humidity: 0.85})
	p := Account(played(d, nil, work(0, 0, 56*sim.Minute)))[0]
	if o := p.Outings[0]; o.Light || o.Allowed.Most != 55*sim.Minute || !o.TooLong() {
		t.Errorf("heavy work at -35 C: %+v", o)
	}
	p = Account(played(d, nil, free(0, 40*sim.Minute)))[0]
	if o := p.Outings[0]; !o.Light || o.Allowed.Most != 40*sim.Minute || o.TooLong() {
		t.Errorf("standing at -35 C: %+v", o)
	}
	// The wind at 10 m counts, less what the spot keeps off: 8 m/s at the post
	// is 14.4 km/h.
	d = camp(sim.WeatherRow{Air: -35, Wind: 8, Humidity: 0.85})
	p = Account(played(d, nil, watch(sim.Minute)))[0]
	if o := p.Outings[0]; !o.Allowed.Stop {
		t.Errorf("lookout at -35 C and 14.4 km/h: %+v, want stop (light work, -38 row, 16 km/h)", o)
	}
}

func TestWithoutWeatherOrClothingThereIsNoAccount(t *testing.T) {
	p := Account(played(camp(), nil, free(0, sim.Hour)))[0]
	if p.Why != "no account: the scenario has no weather" || p.Ledger != nil || p.PassedAt != sim.Never || p.Chill.OK() {
		t.Errorf("without weather: %+v", p)
	}
	for _, c := range []struct {
		march, halt float64
		why         string
	}{
		{0, 0, `no account: the clothing of "Aila" is not given`},
		{0, 3, `no account: what "Aila" wears on the march is not given`},
		{2, 0, `no account: what "Aila" wears at the halt is not given`},
	} {
		d := camp(cold26())
		d.People[0].March, d.People[0].Halt = c.march, c.halt
		if p := Account(played(d, nil, free(0, sim.Hour)))[0]; p.Why != c.why || p.Ledger != nil || p.Peak != 0 {
			t.Errorf("%v/%v clo: %q, want %q", c.march, c.halt, p.Why, c.why)
		}
	}
	// nobody on the way: arrived when all was over
	if p := Account(played(camp(cold26()), nil))[0]; p.Why != "" || p.Peak != 0 || p.RelieveBy != sim.Never {
		t.Errorf("without any time: %+v", p)
	}
}

// drawTimeline makes a person's time of whole seconds at random.
func drawTimeline(t *rapid.T) *sim.Timeline {
	second := func(name string, most int) sim.Time {
		return sim.Time(rapid.IntRange(1, most).Draw(t, name)) * sim.Second
	}
	var rows []sim.WeatherRow
	for at := sim.Time(0); len(rows) < rapid.IntRange(1, 4).Draw(t, "rows"); at += second("row", 2000) {
		rows = append(rows, sim.WeatherRow{At: at, Air: rapid.Float64Range(-45, 0).Draw(t, "air"), Wind: rapid.Float64Range(0, 15).Draw(t, "wind"), Humidity: 0.8})
	}
	d := camp(rows...)
	d.People[0] = sim.Person{Name: "Aila", March: rapid.Float64Range(0.7, 3).Draw(t, "march"),
		Halt: rapid.Float64Range(0.7, 5).Draw(t, "halt"), Damp: rapid.Float64Range(0, 0.5).Draw(t, "damp")}
	ends := map[int]sim.Time{1: second("layers", 6000), 2: second("heated", 6000)}
	var stretches []sim.Stretch
	for range rapid.IntRange(1, 8).Draw(t, "stretches") {
		length := second("length", 1500)
		switch spot := rapid.IntRange(0, 2).Draw(t, "spot"); rapid.IntRange(0, 3).Draw(t, "what") {
		case 0:
			stretches = append(stretches, free(spot, length))
		case 1:
			stretches = append(stretches, work(rapid.IntRange(0, 2).Draw(t, "task"), spot, length))
		case 2:
			stretches = append(stretches, watch(length))
		case 3:
			stretches = append(stretches, walk(0, spot, length))
		}
	}
	return played(d, ends, stretches...)
}

// The slow and obvious account: second by second, nothing remembered but the
// debt, what was worn, and since when the person has been warm.
func TestAccountIsTheSumOfItsSeconds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tl := drawTimeline(t)
		p := Account(tl)[0]
		debt, peak, passed := bySeconds(tl)
		last := p.Ledger[len(p.Ledger)-1]
		// The air inside changes its whole degrees within a second.
		if math.Abs(last.Debt-debt) > 2e-2 || math.Abs(p.Peak-peak) > 2e-2 {
			t.Fatalf("debt %v and peak %v, second by second %v and %v", last.Debt, p.Peak, debt, peak)
		}
		if math.Abs(peak-HeatLimit) > 2e-2 && (passed == sim.Never) != (p.PassedAt == sim.Never) ||
			passed != sim.Never && p.PassedAt != sim.Never && (p.PassedAt > passed+2*sim.Second || p.PassedAt <= passed-3*sim.Second) {
			t.Fatalf("passed at %v, second by second by %v", p.PassedAt, passed)
		}
		peaks := NewMeter(tl.Drill).Peaks(tl, nil)
		if want := (Peak{Debt: p.Peak, At: p.PeakAt, PassedAt: p.PassedAt, Known: true}); peaks[0] != want {
			t.Fatalf("the meter reads %+v, the account %+v", peaks[0], want)
		}
	})
}

// bySeconds keeps the account of the first person of a drill made by camp.
func bySeconds(tl *sim.Timeline) (debt, peak float64, passed sim.Time) {
	d, who := tl.Drill, tl.Drill.People[0]
	lit, warm := tl.Tasks[2].Start, tl.Tasks[2].End
	room := heat.RoomsOf(tl)[0]
	clo, dry, warmFor := who.March, false, sim.Time(0)
	passed = sim.Never
	for _, s := range tl.People[0] {
		for at := s.From; at < s.To; at += sim.Second {
			row := d.Weather[0].Rows[0]
			for _, r := range d.Weather[0].Rows {
				if r.At <= at {
					row = r
				}
			}
			air, wind := row.Air, 0.65*row.Wind
			what, spot := s.What, s.Spot
			// Who is free in the open goes in when that is worth it.
			if what == sim.Free && spot != 1 {
				walk := sim.Minute + map[int]sim.Time{0: 0, 2: 30 * sim.Second}[spot]
				leave, back := max(freeSince(tl, at), warm), freeUntil(tl, at)
				if back-leave > 2*walk+2*sim.Minute && at >= leave {
					if what = sim.Walking; at >= leave+walk && at < back-walk {
						what, spot = sim.Free, 1
					}
				}
			}
			inside := what != sim.Walking && spot == 1 && at >= lit
			if what != sim.Walking && spot == 2 {
				wind /= 2
			}
			if inside {
				c, _ := room.Temperature(at + sim.Second/2)
				air, wind = min(10, math.Floor(c+0.5)), 0
			}
			m := map[sim.Activity]float64{sim.Free: 100, sim.Watching: 70, sim.Walking: 165}[what]
			if inside && what == sim.Free {
				m = 65
			}
			if what == sim.Working {
				m = []float64{230, 100, 100}[s.Task]
			}
			switch on := at >= tl.Tasks[1].End; {
			case what == sim.Walking:
			case what == sim.Watching, on && m <= 100:
				clo = who.Halt
			default:
				clo = who.March
			}
			if warmFor += sim.Second; !inside || air < 10 {
				warmFor = 0
			}
			dry = dry || warmFor > 30*sim.Minute
			worn := clo
			if !dry {
				worn *= 1 - who.Damp
			}
			debt = max(0, debt-Balance(Body{M: m}, Clothing{Clo: worn}, Ambient{air, air, wind, 0.8})/3600)
			peak = max(peak, debt)
			if debt >= HeatLimit && passed == sim.Never {
				passed = at + sim.Second
			}
		}
	}
	return debt, peak, passed
}

// freeSince and freeUntil are the ends of the free time at one spot around a
// moment.
func freeSince(tl *sim.Timeline, at sim.Time) (since sim.Time) {
	for i, s := range tl.People[0] {
		if b := i - 1; b < 0 || s.What != sim.Free || tl.People[0][b].What != sim.Free || tl.People[0][b].Spot != s.Spot {
			since = s.From
		}
		if at < s.To {
			break
		}
	}
	return since
}

func freeUntil(tl *sim.Timeline, at sim.Time) (until sim.Time) {
	all := tl.People[0]
	for i := len(all) - 1; i >= 0 && all[i].To > at; i-- {
		if n := i + 1; n == len(all) || all[i].What != sim.Free || all[n].What != sim.Free || all[n].Spot != all[i].Spot {
			until = all[i].To
		}
	}
	return until
}

// Conservation: the ledger covers a person's time without gap or overlap, and
// its storage adds up, floored at 0, to the debt.
func TestLedgerAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tl := drawTimeline(t)
		p := Account(tl)[0]
		debt, at, outdoors := 0.0, sim.Time(0), sim.Time(0)
		for _, e := range p.Ledger {
			if e.From != at || e.To <= e.From {
				t.Fatalf("entry from %v to %v after %v", e.From, e.To, at)
			}
			debt = max(0, debt-e.S*hours(e.To-e.From))
			if e.Debt != debt {
				t.Fatalf("debt %v, adds up to %v", e.Debt, debt)
			}
			if at = e.To; !e.Indoors {
				outdoors += e.To - e.From
			}
		}
		if at != tl.End {
			t.Fatalf("the ledger ends at %v, the drill at %v", at, tl.End)
		}
		for _, o := range p.Outings {
			outdoors -= o.Length()
		}
		if outdoors != 0 {
			t.Fatalf("outings are %v short of the time outdoors", outdoors)
		}
	})
}

func TestAccountIsRepeatable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tl := drawTimeline(t)
		a, b := Account(tl)[0], Account(tl)[0]
		if len(a.Ledger) != len(b.Ledger) || a.Peak != b.Peak || a.RelieveBy != b.RelieveBy {
			t.Fatal("two accounts of one timeline differ")
		}
		for i := range a.Ledger {
			if a.Ledger[i] != b.Ledger[i] {
				t.Fatal("two accounts of one timeline differ")
			}
		}
	})
}

// Twelve people, some sixty stretches each.
func BenchmarkAccount(b *testing.B) {
	d := camp(cold26(), sim.WeatherRow{At: 90 * sim.Minute, Air: -30, Wind: 8, Humidity: 0.85})
	person := d.People[0]
	d.People = nil
	tl := &sim.Timeline{}
	for range 12 {
		d.People = append(d.People, person)
		var stretches []sim.Stretch
		for range 15 {
			stretches = append(stretches, free(0, sim.Minute), walk(0, 1, 2*sim.Minute), work(0, 0, 6*sim.Minute), watch(5*sim.Minute))
		}
		one := played(d, map[int]sim.Time{1: sim.Hour, 2: 2 * sim.Hour}, stretches...)
		people := append(tl.People, one.People[0])
		tl = one
		tl.People = people
	}
	b.ReportAllocs()
	for b.Loop() {
		Account(tl)
	}
}

func TestReasonsReadAsSentences(t *testing.T) {
	for _, v := range []Value{WindChill(20, 5), FrostbiteTime(0, 40), BareHandTime(5), SnowTerrain(50), SnowOxygen(50), March{}.Watts()} {
		if v.OK() || v.X != 0 || strings.HasSuffix(v.Why, ".") {
			t.Errorf("%+v: want a reason and no number", v)
		}
	}
}
