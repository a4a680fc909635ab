package fast_test

import (
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/fast"
	"warmby/sim/heat"
	"warmby/sim/inside"
	"warmby/sim/internal/drills"
)

// The air that is read off a timeline is that which the engine warmed: when a
// warm-up ends its shelter is as warm as asked, to what a millisecond changes. And
// the meter reads the account, to the bit, whatever a drill has.
func TestWhatIsReadOffATimelineIsWhatWasPlayed(t *testing.T) {
	ended := 0
	read := func(t *rapid.T, d *sim.Drill) {
		p := fast.Compile(d)
		w, m := p.Worker(), cold.NewMeter(d)
		var tl sim.Timeline
		for run := range 3 {
			w.Record(1, run, &tl)
			rooms := heat.RoomsOf(&tl)
			for i := range d.Tasks {
				if d.Tasks[i].Kind != sim.Warm || tl.Tasks[i].End >= tl.End {
					continue
				}
				ended++
				warm, end := d.Tasks[i].Warm, tl.Tasks[i].Worked
				if c, ok := rooms[warm.Shelter].Temperature(end); !ok || c < warm.To-0.1 {
					t.Fatalf("%q ends at %v with %v C, %v were asked", d.Tasks[i].Name, end, c, warm.To)
				}
			}
			peaks := m.Peaks(&tl, nil)
			for i, want := range cold.Account(&tl) {
				if got := peaks[i]; got != (cold.Peak{Debt: want.Peak, At: want.PeakAt, PassedAt: want.PassedAt, Known: want.Why == ""}) {
					t.Fatalf("%s has %+v, want %v at %v, over the limit at %v (%s)", want.Name, got, want.Peak, want.PeakAt, want.PassedAt, want.Why)
				}
			}
			inside.Alone(&tl)
			inside.Assumed(&tl)
			heat.Used(&tl)
		}
	}
	rapid.Check(t, func(t *rapid.T) { read(t, drills.Draw(t)) })
	for round := 0; round == 0 || ended == 0 && round < 10; round++ { // few drawn ones come to the end of a warm-up
		rapid.Check(t, func(t *rapid.T) { read(t, drills.Whole(t)) })
	}
	if ended == 0 {
		t.Error("no warm-up ever ended")
	}
}
