package draw

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// The factors are all there is to a run: with the numbers of another run in
// their place a run is that other one, whatever its own streams say.
func TestFactorsAreAllThatIsDrawn(t *testing.T) {
	d := camp()
	s := NewSampler(d)
	factors := s.Factors(d)
	var got sim.Luck
	for run := range 200 {
		u := make([]float64, len(factors))
		for i := range factors {
			u[i] = factors[i].Uniform(StartOf(11, uint64(run)))
		}
		s.RunGiven(99, 7, PlacesOf(factors), u, &got)
		if diff := cmp.Diff(Run(d, 11, run), &got); diff != "" {
			t.Fatalf("run %d (-drawn +given):\n%s", run, diff)
		}
	}
}

func TestWhatIsNotGivenComesFromTheStreams(t *testing.T) {
	d := camp()
	s := NewSampler(d)
	var got sim.Luck
	for run := range 50 {
		s.RunGiven(11, run, nil, nil, &got)
		if diff := cmp.Diff(Run(d, 11, run), &got); diff != "" {
			t.Fatalf("run %d (-drawn +given):\n%s", run, diff)
		}
	}
	var one []Factor
	for _, f := range s.Factors(d) {
		if f.Purpose == ForArrives {
			one = append(one, f)
		}
	}
	s.RunGiven(11, 3, PlacesOf(one), []float64{0.5}, &got)
	want := Run(d, 11, 3)
	want.Person[1] = sim.Milliseconds(d.People[1].Arrives.Quantile(0.5))
	if diff := cmp.Diff(want, &got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// What a factor is worth is what the run makes of it.
func TestValuesOfFactors(t *testing.T) {
	d := camp()
	d.Day = nil // else it is in the lengths
	s := NewSampler(d)
	seen := map[string]bool{}
	for run := range 100 {
		from, l := StartOf(11, uint64(run)), Run(d, 11, run)
		for _, f := range s.Factors(d) {
			seen[f.Purpose] = true
			v := f.Value(f.Uniform(from))
			var want float64
			switch f.Purpose {
			case ForWork:
				want = float64(l.Amount[f.At])
			case ForArrives:
				want = float64(l.Person[f.At])
			case ForLoadArrives:
				want = float64(l.Load[f.At])
			case ForWeather:
				want = float64(l.Weather)
			case ForMishap:
				if f.N > l.Mishaps[f.At] { // nobody asked
					continue
				}
				if l.Mishaps[f.At] > f.N {
					want = 1
				}
			default:
				continue
			}
			if f.IsLength() {
				v = float64(sim.Milliseconds(v))
			}
			if v != want {
				t.Fatalf("run %d: %s of %q is %v, want %v", run, f.Purpose, f.Name, v, want)
			}
		}
	}
	if len(seen) != 6 {
		t.Errorf("factors of %d purposes: %v", len(seen), seen)
	}
}
