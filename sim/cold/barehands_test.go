package cold

import (
	"math"
	"testing"

	"warmby/sim"
)

// By the rule of NSMRL Report 1067 bare hands may work 15 min in air of 10 F
// (-12.2 C): 20 minutes are too long, 10 are not, and gloves are not judged.
func TestBareWorkLongerThanTheRuleIsNamed(t *testing.T) {
	d := &sim.Drill{
		Spots:   []sim.Spot{{In: -1}},
		Weather: []sim.WeatherCase{{Rows: []sim.WeatherRow{{Air: -12}}}},
		People:  []sim.Person{{Name: "Aila"}},
		Tasks: []sim.Task{
			{Name: "tie the knots", Hands: sim.Bare, Item: -1},
			{Name: "prime the stove", Hands: sim.Bare, Item: -1},
			{Name: "dig", Hands: sim.Mittens, Item: -1},
		},
	}
	tl := &sim.Timeline{Drill: d, Luck: &sim.Luck{}, People: make([][]sim.Stretch, 1)}
	at := sim.Time(0)
	for i, length := range []sim.Time{20 * sim.Minute, 10 * sim.Minute, 60 * sim.Minute} {
		tl.Tasks = append(tl.Tasks, sim.TaskTimes{Start: at, End: at + length})
		tl.People[0] = append(tl.People[0], sim.Stretch{What: sim.Working, From: at, To: at + length, Task: i, Lookout: -1})
		at += length
	}
	got := BareWorks(tl)
	if len(got) != 1 || got[0].Task != 0 || got[0].Length != 20*sim.Minute {
		t.Fatalf("BareWorks = %+v, want task 0 alone, for 20 min", got)
	}
	const want, bits = -12*9.0/5 + 32 + 5, 1e-12
	if math.Abs(got[0].Allowed-want) > bits {
		t.Errorf("allowed %v min, want %v", got[0].Allowed, want)
	}
}
