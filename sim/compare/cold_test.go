package compare_test

import (
	"math"
	"reflect"
	"testing"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// freezing is the camp in hard cold, its people dressed too thinly to stand
// about in it.
func freezing(sequence ...int) *sim.Drill {
	d := camp(sequence...)
	d.Weather = []sim.WeatherCase{{Rows: []sim.WeatherRow{{Air: -30, Wind: 8, Humidity: 0.8}}}}
	for i := range d.People {
		d.People[i].March, d.People[i].Halt = 1.2, 1.2
	}
	return d
}

// The account of many runs is that of each, as the other engine plays it.
func TestHowColdIsTheAccountOfEachRun(t *testing.T) {
	b := compare.Batch{Seed: 5, Runs: 60, Workers: 2}
	played, err := compare.Play(ctx, []*sim.Drill{freezing(0, 1, 2, 3)}, b)
	if err != nil {
		t.Fatal(err)
	}
	got, err := compare.HowCold(ctx, played, b)
	if err != nil {
		t.Fatal(err)
	}
	worst, over := 0.0, 0
	for run := range b.Runs {
		tl := reference.Play(played[0].Drill, draw.Run(played[0].Drill, b.Seed, run))
		passed := false
		for _, p := range cold.Account(tl) {
			worst = max(worst, p.Peak)
			passed = passed || p.PassedAt != sim.Never
		}
		if passed {
			over++
		}
	}
	c := got[0]
	if len(c.Peaks) != b.Runs || c.Peaks[b.Runs-1] != worst || c.Over != over {
		t.Errorf("%d runs, at worst %v, %d over the limit; want %d, %v, %d", len(c.Peaks), c.Peaks[len(c.Peaks)-1], c.Over, b.Runs, worst, over)
	}
	if worst == 0 || math.IsInf(worst, 0) {
		t.Errorf("nobody loses heat: %v", worst)
	}
	sum := 0
	for _, n := range c.Coldest {
		sum += n
	}
	if sum != b.Runs {
		t.Errorf("somebody is coldest in %d of %d runs", sum, b.Runs)
	}
}

func TestHowColdIsTheSameOnAnyNumberOfWorkers(t *testing.T) {
	ask := func(workers int) []*compare.Cold {
		b := compare.Batch{Seed: 5, Runs: 3000, Workers: workers}
		played, err := compare.Play(ctx, []*sim.Drill{freezing(0, 1, 2, 3), freezing(0, 2, 1, 3)}, b)
		if err != nil {
			t.Fatal(err)
		}
		c, err := compare.HowCold(ctx, played, b)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	one := ask(1)
	if two := ask(2); !reflect.DeepEqual(one, two) {
		t.Error("1 worker and 2 differ")
	}
	if n := len(one[0].Peaks); n >= 3000 || n < 1000 {
		t.Errorf("the account was kept in %d runs of 3000", n)
	}
}

func TestThereIsNoAccountWithoutWeather(t *testing.T) {
	b := compare.Batch{Seed: 5, Runs: 10, Workers: 1}
	played, err := compare.Play(ctx, orders(), b)
	if err != nil {
		t.Fatal(err)
	}
	if c, err := compare.HowCold(ctx, played, b); err != nil || c[0] != nil || c[1] != nil {
		t.Errorf("HowCold = %v, %v, want nothing", c, err)
	}
}

// 2,300 runs: the account ends within a chunk, with the batch going on.
func TestPlayingAndAccountTogetherAreThoseOfBothApart(t *testing.T) {
	drills := append(orders(), freezing(0, 1, 2, 3))
	b := compare.Batch{Seed: 5, Runs: 2300, Workers: 2, ReadAs: func(d *sim.Drill) []*sim.Drill { return []*sim.Drill{d, d, d} }}
	played, err := compare.Play(ctx, drills, b)
	if err != nil {
		t.Fatal(err)
	}
	accounts, err := compare.HowCold(ctx, played, b)
	if err != nil {
		t.Fatal(err)
	}
	together, kept, err := compare.PlayCold(ctx, drills, b)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(played, together) {
		t.Error("the runs differ")
	}
	if !reflect.DeepEqual(accounts, kept) || kept[0] != nil || kept[2] == nil {
		t.Error("the accounts differ")
	}
}
