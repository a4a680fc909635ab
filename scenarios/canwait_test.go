package scenarios

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

func TestCanWaitListsTheTasksMarkedSo(t *testing.T) {
	if got := readGood(t, "evening.yaml").CanWait(); !cmp.Equal(got, []string{"bank the skirt"}) {
		t.Errorf("CanWait() = %q", got)
	}
}

func TestWithoutATaskItsFollowersComeAfterWhatItCameAfter(t *testing.T) {
	s := readGood(t, "evening.yaml")
	w, err := s.Without("set the flue")
	if err != nil {
		t.Fatal(err)
	}
	d := w.drill
	if len(d.Tasks) != len(s.drill.Tasks)-1 || d.TaskNamed("set the flue") >= 0 {
		t.Errorf("%d tasks of %d are left", len(d.Tasks), len(s.drill.Tasks))
	}
	// It came after pitch the tent, after which lighting the heater comes anyway.
	if got, want := d.Tasks[d.TaskNamed("light the heater")].After, []sim.After{{Task: d.TaskNamed("pitch the tent")}}; !cmp.Equal(got, want) {
		t.Errorf("light the heater comes after %v, want %v", got, want)
	}
	w, err = s.Without("let it set")
	if err != nil {
		t.Fatal(err)
	}
	d = w.drill
	if got, want := d.Tasks[d.TaskNamed("pitch the tent")].After, []sim.After{{Task: d.TaskNamed("tramp the floor")}}; !cmp.Equal(got, want) {
		t.Errorf("pitch the tent comes after %v, want %v", got, want)
	}
}

func TestWithoutATaskMilestonesAndOrdersForgetIt(t *testing.T) {
	w, err := readGood(t, "evening.yaml").Without("serve tea")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, m := range w.drill.Milestones {
		names = append(names, m.Name)
	}
	if want := []string{"shelter up", "heated", "finish"}; !cmp.Equal(names, want) {
		t.Errorf("milestones %q, want %q", names, want)
	}
	d, err := w.Drill("two groups")
	if err != nil {
		t.Fatal(err)
	}
	if got := d.Groups[1].Sequence; !cmp.Equal(got, []int{d.TaskNamed("melt for tea")}) {
		t.Errorf("the second group does %v", got)
	}
	w, err = readGood(t, "evening.yaml").Without("pitch the tent")
	if err != nil {
		t.Fatal(err)
	}
	if len(w.orders[1].Crews) != 0 {
		t.Errorf("crews %v, want none", w.orders[1].Crews)
	}
}

func TestWithoutAnUnknownTask(t *testing.T) {
	_, err := readGood(t, "evening.yaml").Without("bank the shirt")
	if err == nil || err.Error() != "evening.yaml: no task is called \"bank the shirt\"\n  hint: did you mean \"bank the skirt\"?" {
		t.Errorf("%v", err)
	}
}
