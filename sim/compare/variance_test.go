package compare_test

import (
	"math"
	"testing"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

// A chain of one person: dig (uniform on 0 to 20 min: variance 400/12), then
// pitch (0 to 10 min: 100/12), with a mishap in 3 of 10 runs that adds 10 min
// (100 x 0.3 x 0.7), and a person who comes after 0 to 10 min and is not needed.
func chained() *sim.Drill {
	d := camp(0, 1, 2, 3)
	d.Tasks[0].Amount, d.Tasks[1].Amount, d.Tasks[2].Amount = drills.Even(10*60000), draw.Fixed(60000), drills.Even(5*60000)
	d.Tasks[2].Mishap = &sim.Mishap{Chance: 0.3, Adds: draw.Fixed(10 * 60000)}
	d.People = append(d.People, sim.Person{Name: "Berend", Pace: 1000, Arrives: drills.Even(5 * 60000)})
	d.Milestones = []sim.Milestone{{Name: "up", When: []int{2}, By: sim.Never}, {Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never}}
	d.Tasks[0].Who, d.Tasks[1].Who, d.Tasks[2].Who = []int{0}, []int{0}, []int{0}
	return d
}

func TestEveryChanceHasItsShareOfTheVariance(t *testing.T) {
	t.Run("as it is", func(t *testing.T) { sharesOfChained(t, chained()) })
	// The same where the mishap comes in deep snow only, and the snow is deep.
	deep := chained()
	deep.Site.SnowDepth = 1
	m := deep.Tasks[2].Mishap
	m.Chance, m.When, m.Then = 0, &sim.Condition{Kind: sim.SnowDeeper, Value: 0.5}, 0.3
	t.Run("a mishap by its condition", func(t *testing.T) { sharesOfChained(t, deep) })
}

func sharesOfChained(t *testing.T, d *sim.Drill) {
	b := compare.Batch{Seed: 3, Runs: 8000, Workers: 2}
	played, err := compare.Play(ctx, []*sim.Drill{d}, b)
	if err != nil {
		t.Fatal(err)
	}
	lucks, err := compare.ShareLuck(ctx, played, []int{0}, b)
	if err != nil {
		t.Fatal(err)
	}
	dig, pitch, mishap := 400.0/12, 100.0/12, 100*0.3*0.7
	all := dig + pitch + mishap
	want := map[[2]string]float64{
		{"dig", draw.ForWork}: dig / all, {"pitch", draw.ForWork}: pitch / all, {"pitch", draw.ForMishap}: mishap / all,
		{"boil", draw.ForWork}: 0, {"Berend", draw.ForArrives}: 0,
	}
	luck := lucks[0][0]
	if len(luck.Chances) != len(want) {
		t.Fatalf("%d chances, want %d: %+v", len(luck.Chances), len(want), luck.Chances)
	}
	for _, c := range luck.Chances {
		w := want[[2]string{c.Name, c.Purpose}]
		// First orders come from 8,000 runs, totals from 250: four standard errors.
		if math.Abs(c.First.Value-w) > 0.03 || math.Abs(c.Total.Value-w) > 0.2 {
			t.Errorf("%s of %s: first %+v, total %+v, want %.3f", c.Purpose, c.Name, c.First, c.Total, w)
		}
		if w == 0 && c.Total.Value != 0 {
			t.Errorf("%s of %s moves nothing, and its total is %+v", c.Purpose, c.Name, c.Total)
		}
	}
	if first := luck.Chances[0]; first.Name != "dig" {
		t.Errorf("the first is %s of %s, want dig", first.Purpose, first.Name)
	}
	if e := luck.Explained; e.Value < 0.97 || e.Low > e.Value || e.High < 0.99 {
		t.Errorf("explained %+v, want all: a sum has no interactions", e)
	}
}
