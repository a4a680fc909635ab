package played

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

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

// play plays a drill with both engines and returns their one timeline. They
// must agree to the last stretch of the last person, and the checker must
// find nothing. The error is that of a drill that can never finish, which
// both must refuse.
func play(t testing.TB, d *sim.Drill, luck *sim.Luck) (*sim.Timeline, error) {
	t.Helper()
	want, wantErr := reference.Play(d, luck)
	got, gotErr := playFast(d, luck)
	if (wantErr == nil) != (gotErr == nil) {
		t.Fatalf("the engines differ: reference %v, fast %v", wantErr, gotErr)
	}
	if wantErr != nil {
		var never *sim.NeverError
		if !errors.As(wantErr, &never) || !errors.As(gotErr, &never) {
			t.Fatalf("reference %v, fast %v, want a *sim.NeverError of both", wantErr, gotErr)
		}
		return nil, wantErr
	}
	if diff := cmp.Diff(want, got, cmpopts.IgnoreFields(sim.Timeline{}, "Drill", "Luck")); diff != "" {
		t.Fatalf("the engines differ (-reference +fast):\n%s", diff)
	}
	clean(t, want)
	return want, nil
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

func playFast(d *sim.Drill, luck *sim.Luck) (*sim.Timeline, error) {
	p, err := fast.Compile(d)
	if err != nil {
		return nil, err
	}
	return p.Worker().Timeline(luck)
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
