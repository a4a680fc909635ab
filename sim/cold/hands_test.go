package cold

import "testing"

// NSMRL Report 1067: minutes = T in degrees F + 5.
func TestBareHandTimeFollowsTheRule(t *testing.T) {
	near(t, "10 F", BareHandTime((10-32)/1.8).X, 15, 1e-9) // the report's example
	near(t, "-40 C", BareHandTime(-40).X, 0, 0)
	if got := BareHandTime(1); got.OK() {
		t.Errorf("BareHandTime(1) = %v, want no value", got.X)
	}
}

// Gaydos and Dusek 1958, Chapman and others 2025, The Mobility Forum.
func TestHandMarksStandInOrder(t *testing.T) {
	marks := HandMarks()
	for i, want := range []float64{27, 24.9, 22.9, 20, 15.6, 13, 6} {
		if marks[i].Skin != want {
			t.Errorf("mark %d at %v C, want %v", i, marks[i].Skin, want)
		}
	}
	if _, ok := HandsAt(30); ok {
		t.Error("warm hands have a mark")
	}
	if m, _ := HandsAt(12); m.Skin != 13 {
		t.Errorf("hands at 12 C: mark of %v", m.Skin)
	}
}

func TestHandSlowdownNeverFallsAsHandsCool(t *testing.T) {
	last := HandSlowdown(40)
	if f, _ := last.Float64(); f != 1 {
		t.Errorf("warm hands slow by %v", f)
	}
	for skin := 39.5; skin > -5; skin -= 0.5 {
		next := HandSlowdown(skin)
		if next.Cmp(last) < 0 {
			t.Errorf("colder hands are quicker at %v C", skin)
		}
		last = next
	}
	if f, _ := last.Float64(); f != 3 {
		t.Errorf("frozen hands slow by %v, want 3", f)
	}
}
