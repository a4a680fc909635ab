package scenarios

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim/draw"
)

// Laws build tables when they are first drawn from, and the sun's course takes
// longer than all the rest of reading: neither is made anew for a value that has
// nothing to do with it.
func TestAVariedScenarioSharesWhatStays(t *testing.T) {
	src, err := os.ReadFile(filepath.Join("library", "lake-ossamer.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := Read("lake-ossamer.yaml", src)
	if err != nil {
		t.Fatal(err)
	}
	base, _ := s.Drill("")
	varied, err := s.VaryAll([]string{"weather.air", "tasks.cut the ice hole.crew"}, []string{"-12 C", "3"})
	if err != nil {
		t.Fatal(err)
	}
	d, _ := varied.Drill("")
	if &d.Light[0] != &base.Light[0] {
		t.Error("light was worked out anew although place and arrival stay")
	}
	drawn := 0
	for i := range d.Tasks {
		if draw.Name(d.Tasks[i].Amount) == "beta-PERT" {
			drawn++
			if d.Tasks[i].Amount != base.Tasks[i].Amount {
				t.Errorf("the law of %q was made anew", d.Tasks[i].Name)
			}
		}
	}
	if drawn == 0 {
		t.Error("no task has three values: nothing was tested")
	}

	later, err := s.With("site.arrival", "2027-02-16T10:00:00+02:00")
	if err != nil {
		t.Fatal(err)
	}
	d, _ = later.Drill("")
	if cmp.Equal(d.Light, base.Light) {
		t.Error("another day has the light of the first")
	}
	if _, err := s.With("tasks.cut the ice hole.work", "[3 min, 2 min, 1 min]"); err == nil {
		t.Error("values that fall are taken where good ones stood")
	}
}
