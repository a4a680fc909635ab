package plots

import (
	"maps"
	"os"
	"path/filepath"
	"testing"
)

// TestWriteForLooking writes pictures to a folder named in the environment,
// for eyes: WARMBY_LOOK=/tmp/look go test -run ForLooking ./plots
func TestWriteForLooking(t *testing.T) {
	dir := os.Getenv("WARMBY_LOOK")
	if dir == "" {
		t.Skip("set WARMBY_LOOK to a folder to look at the pictures")
	}
	for name, p := range gallery() {
		for _, f := range Formats {
			b, err := p.Bytes(f)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, name+"."+f), b, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func gallery() map[string]*Picture {
	w := winterCourse().timeline()
	n := neverWarm().timeline()
	held := []string{"choose the place", "tramp the floor", "let it set", "pitch the tent", "light the heater", "warm the tent", "bank the skirt", "build the snow wall", "count everybody and settle the night watch"}
	out := resultPictures()
	maps.Copy(out, map[string]*Picture{
		"review": Review(ReviewInput{Plan: w, AsTimed: w}),
		"course": Drill(w, Options{Critical: critical(w, held...), Curves: winterCurves(w), Cold: winterCold()}),
		"crowd":  Drill(crowd(12).timeline(), Options{Curves: winterCurves(w)}),
		"throng": Drill(crowd(30).timeline(), Options{}),
		"never":  Drill(n, Options{Critical: critical(n, held...), Curves: winterCurves(n)}),
	})
	return out
}

// resultPictures are one or two of each kind.
func resultPictures() map[string]*Picture {
	return map[string]*Picture{
		"odds": Odds(winterOdds(1000)), "odds-few": Odds(winterOdds(12)), "differences": Differences(winterDifferences()),
		"moves": Moves(winterMoves()), "sweep": Sweep(winterSweep()), "map": Sweep(winterMap()), "team": TimeByTeam(winterTeam()),
		"front": Front(winterFront()), "fronts": Front(winterFronts()), "halt": HaltOdds(winterHalt()),
	}
}
