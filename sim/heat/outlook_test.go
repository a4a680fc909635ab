package heat

import (
	"testing"

	"warmby/sim"
)

// Of a warm-up that never ends the outlook is that of the last weather, with no
// pot on the stove any more.
func TestOutlookIsThatOfTheEnd(t *testing.T) {
	tl := evening()
	banked := tent()
	banked.AirChanges = 0.4
	want := Terms{banked, -26, 200, Keeping, 7500 * 0.65, 15}
	if got := Outlook(tl, 0); got != want {
		t.Errorf("outlook %+v, want %+v", got, want)
	}
	tl.Tasks[0].Worked, tl.Tasks[0].End, tl.End = sim.Never, sim.Never, 9*sim.Minute
	want = Terms{banked, -26, 200, Full, 7500 * 0.65, 0}
	if got := Outlook(tl, 0); got != want {
		t.Errorf("outlook of one that never ends %+v, want %+v", got, want)
	}
}
