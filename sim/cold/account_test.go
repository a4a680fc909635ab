package cold

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

// camp is a drill for timelines made by hand: spot 0 is the centre, 1 lies in
// the tent, 2 is a post half sheltered. Task 0 is work, 1 puts layers on, 2
// warms the tent.
func camp(rows ...sim.WeatherRow) *sim.Drill {
	d := &sim.Drill{
		Spots:    []sim.Spot{{Name: "centre", In: -1}, {Name: "tent", In: 0}, {Name: "post", In: -1, Sheltered: 0.5}},
		Shelters: []sim.Shelter{{Name: "tent"}},
		Stoves:   []sim.Stove{{Name: "heater"}},
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
// end when said, or never.
func played(d *sim.Drill, ends map[int]sim.Time, stretches ...sim.Stretch) *sim.Timeline {
	tl := &sim.Timeline{Drill: d, Luck: &sim.Luck{}}
	for i := range d.Tasks {
		end := sim.Never
		if t, ok := ends[i]; ok {
			end = t
		}
		tl.Tasks = append(tl.Tasks, sim.TaskTimes{End: end})
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
		air := rapid.Float64Range(-50, 5).Draw(t, "air")
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
	rest, busy := stored(70, 1.6, -26, wind), stored(230, 1.6, -26, wind)
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

func TestDampGoesInsideAHeatedShelter(t *testing.T) {
	d := camp(cold26())
	d.People[0].Damp = 0.2
	p := Account(played(d, map[int]sim.Time{2: 30 * sim.Minute}, free(1, 40*sim.Minute), walk(1, 2, 2*sim.Minute), free(2, sim.Minute)))[0]
	if len(p.Ledger) != 4 {
		t.Fatalf("%d entries, want 4: %+v", len(p.Ledger), p.Ledger)
	}
	cold, warm, way, post := p.Ledger[0], p.Ledger[1], p.Ledger[2], p.Ledger[3]
	near(t, "clo in the cold tent", cold.Clo, 1.28, 1e-12)
	near(t, "air in the cold tent", cold.Air, -26, 0)
	near(t, "clo in the heated tent", warm.Clo, 1.6, 0)
	near(t, "air in the heated tent", warm.Air, 10, 0)
	near(t, "wind in the heated tent", warm.Wind, 0, 0)
	if cold.Indoors || !warm.Indoors || way.Indoors || warm.From != 30*sim.Minute {
		t.Errorf("indoors from %v on: %+v", 30*sim.Minute, p.Ledger)
	}
	if cold.S >= 0 || warm.S < 0 {
		t.Errorf("S is %v in the cold tent and %v in the heated one", cold.S, warm.S)
	}
	near(t, "clo on the way", way.Clo, 1.6, 0)
	near(t, "wind on the way", way.Wind, 2.6, 1e-12)
	near(t, "wind at the post", post.Wind, 1.3, 1e-12)
	if len(p.Outings) != 2 || p.Outings[0].Length() != 30*sim.Minute || p.Outings[1].Length() != 3*sim.Minute || p.Longest != 0 {
		t.Errorf("outings %+v, longest %d", p.Outings, p.Longest)
	}
}

func TestNobodyLosesHeatInAHeatedShelter(t *testing.T) {
	d := camp(cold26())
	d.People[0].March = 0.3
	p := Account(played(d, map[int]sim.Time{2: 0}, free(1, sim.Hour)))[0]
	if stored(70, 0.3, 10, 0) >= 0 {
		t.Fatal("the test needs thin clothing")
	}
	if p.Peak != 0 || p.Ledger[0].S != 0 || p.PassedAt != sim.Never || p.RelieveBy != sim.Never {
		t.Errorf("lost %v Wh/m2 indoors: %+v", p.Peak, p.Ledger)
	}
	if p.Chill.OK() || p.Longest != -1 {
		t.Errorf("never outdoors, yet a wind chill of %+v", p.Chill)
	}
}

func TestLimitIsPassedAtTheInterpolatedMoment(t *testing.T) {
	d := camp(cold26(), sim.WeatherRow{At: 30 * sim.Minute, Air: -30, Wind: 10, Humidity: 0.85})
	d.People[0].March = 3
	p := Account(played(d, nil, free(0, 10*sim.Hour)))[0]
	before := stored(70, 3, -26, 2.6)
	later := stored(70, 3, -30, 6.5)
	debt := -before / 2
	if debt >= HeatLimit {
		t.Fatalf("passed before the weather changes: %v", debt)
	}
	want := 0.5 + (HeatLimit-debt)/-later
	near(t, "passed after hours", hours(p.PassedAt), want, hours(1))
	if p.RelieveBy != p.PassedAt {
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
	tl := played(d, nil, free(0, 10*sim.Minute))
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
	if r := Reliefs(Account(tl)); r[0].After || r[0].Doing.What != sim.Free {
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
		rows = append(rows, sim.WeatherRow{At: at, Air: rapid.Float64Range(-45, 5).Draw(t, "air"), Wind: rapid.Float64Range(0, 15).Draw(t, "wind"), Humidity: 0.8})
	}
	d := camp(rows...)
	d.People[0] = sim.Person{Name: "Aila", March: rapid.Float64Range(0.5, 3).Draw(t, "march"),
		Halt: rapid.Float64Range(0.5, 5).Draw(t, "halt"), Damp: rapid.Float64Range(0, 0.5).Draw(t, "damp")}
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
// debt and whether the person has been warm.
func TestAccountIsTheSumOfItsSeconds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tl := drawTimeline(t)
		d, who := tl.Drill, tl.Drill.People[0]
		p := Account(tl)[0]
		debt, dry, peak := 0.0, false, 0.0
		passed := sim.Never
		for _, s := range tl.People[0] {
			for at := s.From; at < s.To; at += sim.Second {
				row := d.Weather[0].Rows[0]
				for _, r := range d.Weather[0].Rows {
					if r.At <= at {
						row = r
					}
				}
				warm := s.What != sim.Walking && s.Spot == 1 && at >= tl.Tasks[2].End
				dry = dry || warm
				clo := who.March
				if at >= tl.Tasks[1].End || s.What == sim.Watching {
					clo = who.Halt
				}
				if !dry {
					clo *= 1 - who.Damp
				}
				air, wind := row.Air, 0.65*row.Wind
				if s.What != sim.Walking && s.Spot == 2 {
					wind /= 2
				}
				if warm {
					air, wind = 10, 0
				}
				m := map[sim.Activity]float64{sim.Free: 70, sim.Watching: 70, sim.Walking: 165}[s.What]
				if s.What == sim.Working {
					m = []float64{230, 100, 100}[s.Task]
				}
				stored := Balance(Body{M: m}, Clothing{Clo: clo}, Ambient{air, air, wind, 0.8})
				if warm {
					stored = max(0, stored)
				}
				debt = max(0, debt-stored/3600)
				peak = max(peak, debt)
				if debt >= HeatLimit && passed == sim.Never {
					passed = at + sim.Second
				}
			}
		}
		last := p.Ledger[len(p.Ledger)-1]
		if math.Abs(last.Debt-debt) > 1e-6 || math.Abs(p.Peak-peak) > 1e-6 {
			t.Fatalf("debt %v and peak %v, second by second %v and %v", last.Debt, p.Peak, debt, peak)
		}
		if (passed == sim.Never) != (p.PassedAt == sim.Never) || passed != sim.Never && (p.PassedAt > passed || p.PassedAt <= passed-sim.Second-1) {
			t.Fatalf("passed at %v, second by second by %v", p.PassedAt, passed)
		}
	})
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
