package draw

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// camp is a drill with something of everything that is drawn.
func camp() *sim.Drill {
	minutes := func(q, u, s float64) sim.Distribution {
		return must(PERT(q*60000, u*60000, s*60000))
	}
	return &sim.Drill{
		People: []sim.Person{{Name: "Aila"}, {Name: "Berend", Arrives: minutes(10, 20, 40)}},
		Loads:  []sim.Load{{Name: "pulk", Arrives: minutes(4, 6, 9)}, {Name: "Berend", Arrives: minutes(10, 20, 40)}},
		Tasks: []sim.Task{
			{Name: "tramp the floor", Kind: sim.Work, Amount: minutes(18, 24, 40)},
			{Name: "pitch the tent", Kind: sim.Timed, Amount: minutes(30, 38, 60)},
			{Name: "light the heater", Kind: sim.Takes, Amount: minutes(3, 5, 12),
				Mishap: &sim.Mishap{Chance: 0.4, Adds: minutes(4, 6, 15), Again: true, AtMost: 3}},
			{Name: "let it set", Kind: sim.Takes, Amount: Fixed(20 * 60000)},
			{Name: "set the flue", Kind: sim.Takes, Amount: must(Exponential(90000)),
				Mishap: &sim.Mishap{Chance: 1, Adds: minutes(1, 2, 3), Again: true, AtMost: 4}},
			{Name: "melt for tea", Kind: sim.Melt},
			{Name: "eat", Kind: sim.Takes, Amount: minutes(5, 10, 20), ByDay: true},
			{Name: "cut wood", Kind: sim.Takes, Amount: Fixed(60000), // in the dark likelier, and none in the light
				Mishap: &sim.Mishap{Chance: 0, Adds: minutes(1, 2, 3), AtMost: 2, Again: true, When: &sim.Condition{Kind: sim.Dark}, Then: 0.6}},
			{Name: "douse the fire", Kind: sim.Takes, Amount: Fixed(60000),
				Mishap: &sim.Mishap{Chance: 0.2, Adds: minutes(1, 2, 3), AtMost: 1, When: &sim.Condition{Kind: sim.Dark}, Then: 1}},
		},
		Weather: []sim.WeatherCase{{Name: "calm", Weight: 30}, {Name: "storm", Weight: 50}, {Name: "fog", Weight: 50}},
		Day:     must(LogNormal(1, 1.1)),
	}
}

func TestUsualLuck(t *testing.T) {
	const minute = sim.Minute
	want := &sim.Luck{
		Amount:      []sim.Time{24 * minute, 38 * minute, 5 * minute, 20 * minute, 62383, 0, 10 * minute, minute, minute}, // 90 s ln 2
		Mishap:      []sim.Time{0, 0, 0, 0, 8 * minute, 0, 0, 0, 0},
		Mishaps:     []int{0, 0, 0, 0, 4, 0, 0, 0, 0},
		MishapThen:  []sim.Time{0, 0, 0, 0, 8 * minute, 0, 0, 0, 2 * minute},
		MishapsThen: []int{0, 0, 0, 0, 4, 0, 0, 0, 1},
		Person:      []sim.Time{0, 20 * minute},
		Load:        []sim.Time{6 * minute, 20 * minute},
		Weather:     1,
	}
	if diff := cmp.Diff(want, Usual(camp())); diff != "" {
		t.Errorf("usual luck (-want +got):\n%s", diff)
	}
}

// The rule, draw by draw: what a run gives is what its streams say.
func TestRunIsWhatItsStreamsSay(t *testing.T) {
	d := camp()
	for run := range 200 {
		u := func(name, purpose string, n int) float64 {
			return Uniform01(11, uint64(run), KeyOf(name, purpose), n)
		}
		got := Run(d, 11, run)
		day := d.Day.Quantile(u("", ForDay, 0))
		for i, task := range d.Tasks {
			want := sim.Time(0)
			if task.Amount != nil {
				v := task.Amount.Quantile(u(task.Name, ForWork, 0))
				if task.Kind == sim.Work || task.Kind == sim.Timed || task.Name == "eat" {
					v *= day
				}
				want = sim.Milliseconds(v)
			}
			if got.Amount[i] != want {
				t.Fatalf("run %d, %s: %d ms, want %d", run, task.Name, got.Amount[i], want)
			}
			meets := func(what string, chance float64, gotTimes int, gotAdds sim.Time) {
				times, adds := 0, sim.Time(0)
				for task.Mishap != nil && times < task.Mishap.AtMost && u(task.Name, ForMishap, times) < chance {
					adds += sim.Milliseconds(task.Mishap.Adds.Quantile(u(task.Name, ForMishapAdds, times)))
					times++
				}
				if gotTimes != times || gotAdds != adds {
					t.Fatalf("run %d, %s, %s: %d mishaps add %d ms, want %d and %d", run, task.Name, what, gotTimes, gotAdds, times, adds)
				}
			}
			usually, then := 0.0, 0.0
			if m := task.Mishap; m != nil {
				if usually, then = m.Chance, m.Chance; m.When != nil {
					then = m.Then
				}
			}
			meets("usually", usually, got.Mishaps[i], got.Mishap[i])
			meets("with its condition", then, got.MishapsThen[i], got.MishapThen[i])
		}
		if want := sim.Milliseconds(d.People[1].Arrives.Quantile(u("Berend", ForArrives, 0))); got.Person[1] != want {
			t.Fatalf("run %d: Berend arrives at %d, want %d", run, got.Person[1], want)
		}
		if got.Load[1] == got.Person[1] {
			t.Fatalf("run %d: a load of the same name has the same luck as a person", run)
		}
	}
}

func TestMishapsAndWeatherComeAsOftenAsSaid(t *testing.T) {
	const n = 50000
	d := camp()
	s, l := NewSampler(d), new(sim.Luck)
	var times [4]float64
	var weather [3]float64
	for run := range n {
		s.Run(5, run, l)
		times[l.Mishaps[2]]++
		weather[l.Weather]++
	}
	within := func(what string, got, want float64) {
		t.Helper()
		if sd := math.Sqrt(want * (1 - want) / n); math.Abs(got/n-want) > 3.5*sd {
			t.Errorf("%s: share %.4f, want %.4f", what, got/n, want)
		}
	}
	within("no mishap", times[0], 0.6)
	within("one", times[1], 0.4*0.6)
	within("two", times[2], 0.4*0.4*0.6)
	within("three, the most", times[3], 0.4*0.4*0.4)
	within("calm", weather[0], 30.0/130)
	within("storm", weather[1], 50.0/130)
	within("fog", weather[2], 50.0/130)
}

func TestLuckDependsOnNothingElse(t *testing.T) {
	d := camp()
	other := camp()
	other.Tasks = append([]sim.Task{{Name: "new", Kind: sim.Work, Amount: must(Exponential(5))}}, other.Tasks...)
	other.Tasks[2].Amount = must(Uniform(0, 1)) // of pitch the tent
	other.Tasks[3].Mishap.AtMost = 1            // of light the heater
	other.People = other.People[1:]
	s := NewSampler(d)
	reused := new(sim.Luck)
	s.Run(9, 99, reused)
	for run := 20; run >= 0; run-- {
		want := Run(d, 9, run)
		s.Run(9, run, reused)
		if diff := cmp.Diff(want, reused); diff != "" {
			t.Fatalf("run %d, backwards and in place (-want +got):\n%s", run, diff)
		}
		got := Run(other, 9, run)
		for _, task := range []int{0, 2, 3, 4} {
			if got.Amount[task+1] != want.Amount[task] {
				t.Errorf("run %d: %s took %d, and %d beside other tasks", run, d.Tasks[task].Name, want.Amount[task], got.Amount[task+1])
			}
		}
		if got.Mishap[5] != want.Mishap[4] || got.Person[0] != want.Person[1] || got.Weather != want.Weather {
			t.Errorf("run %d: luck %+v, and %+v beside other tasks", run, want, got)
		}
	}
}

func TestAnotherSeedIsAnotherLuck(t *testing.T) {
	d := camp()
	if cmp.Equal(Run(d, 1, 0), Run(d, 2, 0)) || cmp.Equal(Run(d, 1, 0), Run(d, 1, 1)) {
		t.Error("two seeds or two runs have the same luck")
	}
}

func TestSamplerDoesNotAllocate(t *testing.T) {
	s, l, run := NewSampler(camp()), new(sim.Luck), 0
	s.Run(1, 0, l)
	if n := testing.AllocsPerRun(1000, func() { run++; s.Run(1, run, l) }); n != 0 {
		t.Errorf("Sampler.Run allocates %v times", n)
	}
	if n := testing.AllocsPerRun(1000, func() { s.Usual(l) }); n != 0 {
		t.Errorf("Sampler.Usual allocates %v times", n)
	}
}

func TestUsualBuildsNoTable(t *testing.T) {
	d := camp()
	Usual(d)
	if d.Tasks[0].Amount.(*pert).table != nil {
		t.Error("a rehearsal without a seed pays for tables")
	}
}

func BenchmarkSamplerRun(b *testing.B) {
	s, l := NewSampler(camp()), new(sim.Luck)
	for i := 0; b.Loop(); i++ {
		s.Run(1, i, l)
	}
}

func BenchmarkNewSampler(b *testing.B) {
	d := camp()
	for b.Loop() {
		NewSampler(d)
	}
}

// A person's own day divides the pace: by 1 with usual values, and else by what its
// stream says. Who has none keeps the pace; where nobody has one there are no paces.
func TestAPersonsOwnDayDividesThePace(t *testing.T) {
	d := camp()
	if got := Run(d, 3, 1).Pace; got != nil {
		t.Errorf("nobody has a day of his own: paces %v", got)
	}
	d.People[0].Pace, d.People[1].Pace = 800, 1000
	d.People[1].Day = must(LogNormal(1, 1.2))
	if got := Usual(d).Pace; !slices.Equal(got, []int64{800, 1000}) {
		t.Errorf("with usual values %v, want the paces of the drill", got)
	}
	differ := false
	for run := range 50 {
		factor := d.People[1].Day.Quantile(Uniform01(3, uint64(run), KeyOf("Berend", ForOwnDay), 0))
		want := []int64{800, sim.PaceBy(1000, factor)}
		got := Run(d, 3, run)
		if !slices.Equal(got.Pace, want) {
			t.Fatalf("run %d: %v, want %v", run, got.Pace, want)
		}
		differ = differ || want[1] != 1000
		given, s := new(sim.Luck), NewSampler(d)
		places := PlacesOf(s.Factors(d))
		s.RunGiven(3, run, places, uniforms(s.Factors(d), 3, run), given)
		if !slices.Equal(given.Pace, want) {
			t.Fatalf("run %d, given: %v, want %v", run, given.Pace, want)
		}
	}
	if !differ {
		t.Error("the pace never changes")
	}
	for _, c := range []struct {
		pace   int64
		factor float64
		want   int64
	}{{1000, 1, 1000}, {1000, 1.25, 800}, {1000, 0.5, 2000}, {3, 2, 2}, {1000, 1e9, 1}, {100_000, 0.5, sim.MostPace}, {1000, 0, sim.MostPace}} {
		if got := sim.PaceBy(c.pace, c.factor); got != c.want {
			t.Errorf("pace %d by %v is %d, want %d", c.pace, c.factor, got, c.want)
		}
	}
}

func uniforms(factors []Factor, seed uint64, run int) (u []float64) {
	for i := range factors {
		u = append(u, factors[i].Uniform(StartOf(seed, uint64(run))))
	}
	return u
}
