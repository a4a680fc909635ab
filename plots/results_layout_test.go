package plots

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"warmby/internal/thorough"
	"warmby/sim"
)

// bare is a text without its spaces: names may be broken into lines.
func bare(text string) string { return strings.Join(strings.Fields(text), "") }

// unnamed returns the names that a picture neither shows nor explains.
func unnamed(p *Picture, names ...string) []string {
	text := bare(shown(p) + strings.Join(p.notes, "\n"))
	var out []string
	for _, n := range names {
		if !strings.Contains(text, bare(clean(n))) {
			out = append(out, n)
		}
	}
	return out
}

// mustBeSound fails when a picture cuts, covers or leaves out words.
func mustBeSound(t rapid.TB, p *Picture, names ...string) {
	t.Helper()
	if f := faults(p); len(f) > 0 {
		t.Fatal(strings.Join(f, "\n"))
	}
	if missing := unnamed(p, names...); len(missing) > 0 {
		t.Fatalf("not in the picture: %q", missing)
	}
	for i, m := range p.marks {
		if !finiteMark(m) {
			t.Fatalf("mark %d is not on the sheet: %+v", i, m)
		}
	}
}

func finiteMark(m mark) bool {
	points := slices.Clone(m.shape)
	if m.area != nil {
		points = append(points, point{m.area.x0, m.area.y0}, point{m.area.x1, m.area.y1})
	}
	if m.path != nil {
		for _, line := range m.path.lines {
			points = append(points, line...)
		}
	}
	for _, q := range points {
		if math.IsNaN(q.x+q.y) || math.IsInf(q.x, 0) || math.IsInf(q.y, 0) || q.x < -1 || q.x > sheetWidth+1 {
			return false
		}
	}
	return true
}

func anyMoment(t *rapid.T, end sim.Time) sim.Time {
	if rapid.IntRange(0, 5).Draw(t, "never") == 0 {
		return sim.Never
	}
	return sim.Time(rapid.Int64Range(0, int64(end)).Draw(t, "moment"))
}

func anyEnd(t *rapid.T) sim.Time {
	return rapid.SampledFrom([]sim.Time{0, 1, 90 * sim.Second, 40 * sim.Minute, 3 * sim.Hour, 7 * 24 * sim.Hour}).Draw(t, "end")
}

func anyArrival(t *rapid.T) time.Time {
	if rapid.Bool().Draw(t, "clock") {
		return winterCourse().arrival
	}
	return time.Time{}
}

func TestOddsAreSoundWhateverCameOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		end := anyEnd(t)
		in := OddsInput{Title: names().Draw(t, "title"), Arrival: anyArrival(t), Foot: names().Draw(t, "foot"), Many: rapid.SampledFrom([]string{"", "runs"}).Draw(t, "many")}
		if rapid.Bool().Draw(t, "lit") {
			in.Light = []sim.Light{{At: 0}, {At: end / 2, Dark: true}}
		}
		var must []string
		orders := rapid.SliceOfN(names(), 0, 14).Draw(t, "orders")
		for range rapid.IntRange(0, 6).Draw(t, "milestones") {
			m := OddsMilestone{Name: names().Draw(t, "milestone"), By: anyMoment(t, 2*end)}
			if rapid.Bool().Draw(t, "said") {
				m.ByText, m.Sentence = names().Draw(t, "by"), names().Draw(t, "sentence")
			}
			must = append(must, m.Name)
			for _, o := range orders {
				order := OddsOrder{Name: o}
				for range rapid.SampledFrom([]int{0, 1, 3, 40}).Draw(t, "runs") {
					order.Times = append(order.Times, anyMoment(t, end))
				}
				m.Orders = append(m.Orders, order)
				if len(orders) <= mostRows+1 { // of more the last are counted only
					must = append(must, o)
				}
			}
			in.Milestones = append(in.Milestones, m)
		}
		mustBeSound(t, Odds(in), must...)
	})
}

func anyNumber(t *rapid.T, label string) float64 {
	return rapid.OneOf(rapid.Float64Range(-1e7, 1e7), rapid.Float64Range(-1, 1),
		rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1)})).Draw(t, label)
}

func TestDifferencesAreSoundWhateverCameOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := DifferencesInput{Title: names().Draw(t, "title"), Lead: names().Draw(t, "lead")}
		var must []string
		for range rapid.IntRange(0, 4).Draw(t, "groups") {
			g := DifferenceGroup{Name: names().Draw(t, "group")}
			for range rapid.IntRange(0, 5).Draw(t, "rows") {
				d := Difference{A: names().Draw(t, "a"), B: names().Draw(t, "b"), Mean: anyNumber(t, "mean"), Low: anyNumber(t, "low"), High: anyNumber(t, "high"),
					Why: names().Draw(t, "why"), Exploratory: rapid.Bool().Draw(t, "exploratory")}
				if math.IsNaN(d.Low) || math.IsNaN(d.High) || d.Low > d.Mean || d.High < d.Mean {
					d.Low, d.High = math.Inf(-1), math.Inf(1)
				}
				g.Rows = append(g.Rows, d)
				must = append(must, d.A, d.B)
			}
			in.Groups = append(in.Groups, g)
			must = append(must, g.Name)
		}
		mustBeSound(t, Differences(in), must...)
	})
}

func TestMovesAreSoundWhateverCameOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := MovesInput{Title: names().Draw(t, "title"), Lead: names().Draw(t, "lead")}
		var must []string
		for range rapid.IntRange(0, 4).Draw(t, "groups") {
			g := MovesGroup{Name: names().Draw(t, "group")}
			for range rapid.IntRange(0, 8).Draw(t, "rows") {
				m := Mover{Task: names().Draw(t, "task"), Won: anyNumber(t, "won"), Why: names().Draw(t, "why"), Critical: rapid.Float64Range(0, 1).Draw(t, "critical")}
				m.Low, m.High = m.Won-1, m.Won+1
				g.Tasks = append(g.Tasks, m)
				if m.Critical >= leastCritical {
					must = append(must, m.Task)
				}
			}
			in.Groups = append(in.Groups, g)
		}
		mustBeSound(t, Moves(in), must...)
	})
}

func anyKey(t *rapid.T) SweepKey {
	k := SweepKey{Name: names().Draw(t, "key"), Unit: rapid.SampledFrom([]string{"", "kW", "min"}).Draw(t, "unit")}
	n := rapid.IntRange(1, 12).Draw(t, "values")
	if rapid.Bool().Draw(t, "worded") {
		k.Words = rapid.SliceOfN(names(), n, n).Draw(t, "words")
		return k
	}
	for range n {
		k.Values = append(k.Values, rapid.OneOf(rapid.Float64Range(-5, 5), rapid.Float64Range(-1e9, 1e9)).Draw(t, "value"))
	}
	slices.Sort(k.Values)
	return k
}

func anyEstimates(t *rapid.T, n int) []Estimate {
	end := anyEnd(t)
	var out []Estimate
	for range n {
		e := Estimate{Value: anyMoment(t, end), High: sim.Never}
		if e.Value != sim.Never && rapid.Bool().Draw(t, "bounded") {
			e.Low, e.High = e.Value/2, e.Value+e.Value/2
		}
		out = append(out, e)
	}
	return out
}

func TestSweepsAreSoundWhateverCameOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := SweepInput{Title: names().Draw(t, "title"), Milestone: names().Draw(t, "milestone"), By: anyMoment(t, anyEnd(t)), Arrival: anyArrival(t), Measure: "mean", Interval: "its interval"}
		cells := 1
		for range rapid.IntRange(0, 2).Draw(t, "keys") {
			in.Keys = append(in.Keys, anyKey(t))
			cells *= in.Keys[len(in.Keys)-1].count()
		}
		var must []string
		for range rapid.IntRange(0, 5).Draw(t, "orders") {
			l := SweepLine{Order: names().Draw(t, "order"), Estimates: anyEstimates(t, rapid.IntRange(0, cells).Draw(t, "there"))}
			in.Lines = append(in.Lines, l)
			if len(in.Keys) == 2 || len(in.Keys) == 1 && len(l.Estimates) > 0 {
				must = append(must, l.Order, in.Milestone)
			}
		}
		mustBeSound(t, Sweep(in), must...)
	})
}

func TestFrontsAreSoundWhateverCameOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := FrontInput{Title: names().Draw(t, "title")}
		for range rapid.IntRange(0, 4).Draw(t, "aims") {
			in.Aims = append(in.Aims, Aim{names().Draw(t, "aim"), rapid.SampledFrom([]string{"", "min"}).Draw(t, "unit")})
		}
		var must []string
		for range rapid.IntRange(0, 12).Draw(t, "orders") {
			o := FrontOrder{Name: names().Draw(t, "order")}
			known := 0
			for range rapid.IntRange(0, len(in.Aims)).Draw(t, "judged") {
				v := rapid.OneOf(rapid.Map(rapid.IntRange(0, 9), func(i int) float64 { return float64(i) }),
					rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -1e6, 1e6})).Draw(t, "value")
				if !math.IsNaN(v) && !math.IsInf(v, 0) {
					known++
				}
				o.Values = append(o.Values, v)
			}
			in.Orders = append(in.Orders, o)
			if known >= 2 {
				must = append(must, o.Name)
			}
		}
		mustBeSound(t, Front(in), must...)
	})
}

func TestHaltOddsAreSoundWhateverCameOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := winterCourse().arrival
		in := HaltOddsInput{Title: names().Draw(t, "title"), Odds: rapid.Float64Range(0, 1).Draw(t, "odds")}
		clock := first
		for range rapid.IntRange(0, 20).Draw(t, "arrivals") {
			in.Arrivals = append(in.Arrivals, clock)
			clock = clock.Add(time.Duration(rapid.IntRange(0, 90).Draw(t, "later")) * time.Minute)
		}
		if rapid.Bool().Draw(t, "latest") {
			in.Latest = first.Add(time.Duration(rapid.IntRange(-60, 300).Draw(t, "at")) * time.Minute)
			in.Dark = []ClockSpan{{first.Add(2 * time.Hour), first.Add(20 * time.Hour)}}
		}
		var must []string
		for range rapid.IntRange(0, 6).Draw(t, "milestones") {
			m := HaltMilestone{Name: names().Draw(t, "milestone"), Asked: rapid.Bool().Draw(t, "asked")}
			for range in.Arrivals {
				s := rapid.Float64Range(0, 1).Draw(t, "share")
				m.Odds = append(m.Odds, Odd{s, s * s, math.Sqrt(s)})
			}
			in.Milestones = append(in.Milestones, m)
			if len(in.Arrivals) > 0 {
				must = append(must, m.Name)
			}
		}
		mustBeSound(t, HaltOdds(in), must...)
	})
}

func TestResultsRepeatToTheByte(t *testing.T) {
	first := resultPictures()
	for range thorough.Cases(1, 2) {
		again := resultPictures()
		for name, p := range first {
			for _, f := range Formats {
				a, err := p.Bytes(f)
				if err != nil {
					t.Fatal(err)
				}
				if b, _ := again[name].Bytes(f); !bytes.Equal(a, b) {
					t.Errorf("%s.%s differs from one time to the next", name, f)
				}
			}
		}
	}
}

func TestResultsAreSound(t *testing.T) {
	for name, p := range resultPictures() {
		t.Run(name, func(t *testing.T) {
			if f := faults(p); len(f) > 0 {
				t.Error(strings.Join(f, "\n"))
			}
			if p.Width != sheetWidth {
				t.Errorf("%v wide, want A4 across", p.Width)
			}
		})
	}
}
