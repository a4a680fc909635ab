package sim_test

import (
	"slices"
	"testing"

	"warmby/sim"
)

// Both chances of a mishap count where its condition holds at times only; a case of
// the weather that cannot be drawn is none.
func TestChancesOfAMishapThatMayCount(t *testing.T) {
	calm, windy := []sim.WeatherRow{{Wind: 2}}, []sim.WeatherRow{{Wind: 12}}
	later := []sim.WeatherRow{{Wind: 2}, {At: sim.Hour, Wind: 12}}
	over := &sim.Condition{Kind: sim.WindOver, Value: 8}
	for _, c := range []struct {
		name    string
		when    *sim.Condition
		weather []sim.WeatherCase
		want    []float64
	}{
		{"no condition", nil, []sim.WeatherCase{{Rows: windy}}, []float64{0.05}},
		{"never windy", over, []sim.WeatherCase{{Rows: calm}}, []float64{0.05}},
		{"always windy", over, []sim.WeatherCase{{Rows: windy}}, []float64{0.2}},
		{"windy from an hour on", over, []sim.WeatherCase{{Rows: later}}, []float64{0.05, 0.2}},
		{"windy in one case", over, []sim.WeatherCase{{Rows: calm, Weight: 1}, {Rows: windy, Weight: 1}}, []float64{0.05, 0.2}},
		{"windy in a case that never comes", over, []sim.WeatherCase{{Rows: calm, Weight: 1}, {Rows: windy}}, []float64{0.05}},
		{"no weather", &sim.Condition{Kind: sim.SnowDeeper, Value: 0.5}, nil, []float64{0.05}},
	} {
		d := &sim.Drill{Weather: c.weather, Tasks: []sim.Task{{}, {Mishap: &sim.Mishap{Chance: 0.05, When: c.when, Then: 0.2}}}}
		if got := d.MishapChances(1); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		if got := d.MishapChances(0); got != nil {
			t.Errorf("a task without a mishap has the chances %v", got)
		}
	}
}

// What a task meets hangs on the moment at which it starts; one that never does
// meets what is usual.
func TestMishapsGoByTheStartOfTheTask(t *testing.T) {
	d := &sim.Drill{Weather: []sim.WeatherCase{{Rows: []sim.WeatherRow{{Wind: 2}, {At: sim.Hour, Wind: 12}}}},
		Tasks: []sim.Task{{Mishap: &sim.Mishap{When: &sim.Condition{Kind: sim.WindOver, Value: 8}}}, {Mishap: &sim.Mishap{}}}}
	l := &sim.Luck{Mishap: []sim.Time{1, 2}, Mishaps: []int{1, 1}, MishapThen: []sim.Time{5, 2}, MishapsThen: []int{3, 1}}
	for _, c := range []struct {
		task  int
		start sim.Time
		times int
		adds  sim.Time
	}{{0, 0, 1, 1}, {0, sim.Hour - 1, 1, 1}, {0, sim.Hour, 3, 5}, {0, sim.Never, 1, 1}, {1, 2 * sim.Hour, 1, 2}} {
		if times, adds := l.MishapsOf(d, c.task, c.start); times != c.times || adds != c.adds {
			t.Errorf("task %d begun at %v: %d add %v, want %d and %v", c.task, c.start, times, adds, c.times, c.adds)
		}
	}
	if l.LeastMishap(0) != 1 {
		t.Errorf("at least %v are added, want 1", l.LeastMishap(0))
	}
	l.SetMishaps(0, 0, 0)
	if times, adds := l.MishapsOf(d, 0, sim.Hour); times != 0 || adds != 0 {
		t.Errorf("%d mishaps add %v after they were taken away", times, adds)
	}
}
