package played

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/reference"
)

// drill reads a scenario text and returns the drill of an order.
func drill(t testing.TB, name, text, order string) *sim.Drill {
	t.Helper()
	s, err := scenarios.Read(name, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill(order)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// play plays a drill with both engines, see both.
func play(t testing.TB, d *sim.Drill, luck *sim.Luck) (*sim.Timeline, error) {
	t.Helper()
	p := fast.Compile(d)
	return both(t, p.Worker(), d, luck)
}

// both plays a drill with the reference engine and a worker of the fast one
// and returns their one timeline, that of the reference engine, which says why it
// came to a stop if it did. They must agree to the last stretch of the last
// person, and the checker must find nothing. The error is that of the stop.
func both(t testing.TB, w *fast.Worker, d *sim.Drill, luck *sim.Luck) (*sim.Timeline, error) {
	t.Helper()
	want, got := reference.Play(d, luck), w.Timeline(luck)
	if diff := differ(want, got); diff != "" {
		t.Fatalf("the engines differ (-reference +fast):\n%s", diff)
	}
	clean(t, want)
	return want, want.Stopped()
}

// never reports whether an error says that a drill can never finish.
func never(err error) bool {
	var n *sim.NeverError
	return errors.As(err, &n)
}

// differ returns what is different about two timelines of one drill with one
// luck; "" when nothing is. Telling differences takes much longer than
// looking for them.
func differ(a, b *sim.Timeline) string {
	x, y := *a, *b
	x.Drill, y.Drill, x.Luck, y.Luck = nil, nil, nil, nil
	if (x.Stops == nil) == (y.Stops == nil) { // why it stopped is told by one of them only
		x.Stops, y.Stops = nil, nil
	}
	if reflect.DeepEqual(x, y) {
		return ""
	}
	return cmp.Diff(x, y)
}

// usual plays a drill without a seed; it must be one that can finish.
func usual(t testing.TB, d *sim.Drill) *sim.Timeline {
	t.Helper()
	tl, err := play(t, d, draw.Usual(d))
	if err != nil {
		t.Fatal(err)
	}
	return tl
}

// clean fails when the checker finds a rule broken.
func clean(t testing.TB, tl *sim.Timeline) {
	t.Helper()
	for i, v := range checker.Check(tl) {
		if i == 5 {
			t.Error("and more")
			break
		}
		t.Errorf("checker: %v", v)
	}
}

// text writes a scenario of people and tasks, each line already YAML.
func text(title string, sections ...string) string {
	return fmt.Sprintf("warmby: 1\ntitle: %s\n%s\n", title, strings.Join(sections, "\n"))
}
