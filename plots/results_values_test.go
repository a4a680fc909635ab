package plots

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

// Massart 1990: P(sup |Fn - F| > e) <= 2 exp(-2 n e^2). 2000 batches of 40
// uniform numbers, whose true curve is the diagonal: no more than 5 % of them
// may leave the band, give or take four standard errors of that count.
func TestBandHoldsTheWholeTrueCurve(t *testing.T) {
	const batches, n = 2000, 40
	r := rand.New(rand.NewPCG(1, 2))
	left := 0
	for range batches {
		u := make([]float64, n)
		for i := range u {
			u[i] = r.Float64()
		}
		slices.Sort(u)
		worst := 0.0
		for i, x := range u {
			worst = max(worst, float64(i+1)/n-x, x-float64(i)/n)
		}
		if worst > Band(n) {
			left++
		}
	}
	if most := 0.05*batches + 4*math.Sqrt(0.05*0.95*batches); float64(left) > most {
		t.Errorf("%d of %d true curves leave the band, more than %.0f", left, batches, most)
	}
	if left < batches/50 {
		t.Errorf("only %d of %d true curves leave the band: it is too wide", left, batches)
	}
}

func TestCurveCountsWhatHasComeByThen(t *testing.T) {
	c := newCurve(OddsOrder{"a", []sim.Time{at(30), sim.Never, at(10), at(20), at(20)}}, lineLooks[0])
	for _, k := range []struct{ minutes, want float64 }{{9.99, 0}, {10, 0.2}, {19, 0.2}, {20, 0.6}, {30, 0.8}, {500, 0.8}} {
		if got := c.share(at(k.minutes)); got != k.want {
			t.Errorf("share by %v min = %v, want %v", k.minutes, got, k.want)
		}
	}
	for _, k := range []struct {
		p    float64
		want sim.Time
	}{{0.2, at(10)}, {0.21, at(20)}, {0.6, at(20)}, {0.8, at(30)}, {0.9, sim.Never}} {
		if got := c.moment(k.p); got != k.want {
			t.Errorf("moment of %v = %v, want %v", k.p, got, k.want)
		}
	}
}

func TestOddsAreSaidInPlainWords(t *testing.T) {
	var times, seldom []sim.Time
	for k := 1; k <= 10; k++ {
		times = append(times, at(10*float64(k)+0.5))
		seldom = append(seldom, at(10*float64(k)))
	}
	seldom[0], seldom[1] = sim.Never, sim.Never
	in := OddsInput{Title: "t", Arrival: winterCourse().arrival, Milestones: []OddsMilestone{{Name: "heated", By: at(95), Orders: []OddsOrder{{"a", times}, {"b", seldom}, {"c", []sim.Time{sim.Never}}}}}}
	text := strings.ReplaceAll(shown(Odds(in)), "\n", " ")
	for _, want := range []string{
		// 90.5 min after 13:40 is 15:10:30; "by" needs the minute after.
		"a, usually 14:31, 9 of 10 by 15:11", "b, usually 14:50, in only 8 of 10 evenings at all",
		"b, never in 2 of 10 evenings", "c, never", "by 1 h 35 min", "90 %", "min since arrival", "on the clock",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the picture:\n%s", want, text)
		}
	}
	in.Milestones[0].Orders = []OddsOrder{{"", times}}
	if got := newPanelOdds(&in.Milestones[0], lookBook{}, "runs").sentence(axis{}, "runs"); got != "In 9 of 10 runs “heated” is reached by 1 h 31 min after arrival." {
		t.Errorf("without a clock: %q", got)
	}
}

func TestCountsAreSaidAsSoManyOfAHundred(t *testing.T) {
	for _, c := range []struct {
		count, of int
		want      string
	}{{830, 1000, "83 of 100"}, {1, 1000, "1 of 1000"}, {999, 1000, "999 of 1000"}, {3, 12, "3 of 12"}, {0, 1000, "0 of 100"}, {0, 0, "none of 0"}} {
		if got := ofHundred(c.count, c.of); got != c.want {
			t.Errorf("%d of %d: %q, want %q", c.count, c.of, got, c.want)
		}
	}
}

// order returns where texts stand in a picture, from the top.
func order(p *Picture, texts ...string) []float64 {
	var out []float64
	for _, want := range texts {
		for _, m := range p.marks {
			if m.words != nil && m.words.text == want {
				out = append(out, m.words.at.y)
				break
			}
		}
	}
	return out
}

func TestDifferencesStandSoonestFirstWithWords(t *testing.T) {
	ms := func(minutes float64) float64 { return minutes * milliseconds }
	nan := math.NaN()
	p := Differences(DifferencesInput{Title: "t", Groups: []DifferenceGroup{{"heated", []Difference{
		{A: "a", B: "b", Mean: ms(3), Low: ms(1), High: ms(5)},
		{A: "c", B: "d", Mean: nan, Low: nan, High: nan, Why: "never reached in 1 run"},
		{A: "e", B: "f", Mean: ms(-4.1), Low: ms(-4.5), High: ms(-3.7), Exploratory: true},
		{A: "g", B: "h", Mean: ms(-0.5), Low: ms(-2), High: ms(1)},
		{A: "i", B: "j", Mean: ms(120), Low: math.Inf(-1), High: math.Inf(1)},
	}}}})
	y := order(p, "e instead of f", "g instead of h", "a instead of b", "i instead of j", "c instead of d")
	if len(y) != 5 || !slices.IsSorted(y) {
		t.Errorf("rows stand at %v", y)
	}
	text := shown(p)
	for _, want := range []string{"4.1 min sooner (3.7 to 4.5)\n", "0.5 min sooner (2 sooner to 1 later)\n", "3 min later (1 to 5)\n",
		"120 min later (too few runs to bound it)\n", "never reached in 1 run\n", "sooner\n", "later\n", "minutes\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the picture", want)
		}
	}
	rings := 0
	for _, m := range p.marks {
		if m.shape != nil && m.ink == paper {
			rings++
		}
	}
	if rings != 2 { // the row and the key
		t.Errorf("%d hollow dots, want 2", rings)
	}
}

func TestMovesStandMostFirstAndTellIdleTasksApart(t *testing.T) {
	text := shown(Moves(winterMoves()))
	for _, want := range []string{"0.97; held it up in 99 of 100\n", "2 other tasks\n", "1 other task\n", "hardly move it\n", "minutes won per minute shorter\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the picture", want)
		}
	}
	if y := order(Moves(winterMoves()), "let it set", "pitch the tent", "unpack tent", "light the heater", "warm the tent"); !slices.IsSorted(y) || len(y) != 5 {
		t.Errorf("rows stand at %v", y)
	}
}

func TestSweepSaysWhereItIsNeverReached(t *testing.T) {
	text := strings.ReplaceAll(shown(Sweep(winterSweep())), "\n", " ")
	for _, want := range []string{"Never reached with “shelter first” at 3; with “drink first” at 3; with “three pairs” at 3, 4 (rings).",
		"stoves.heater.power, kW", "minutes since arrival", "on the clock", "by 1 h 55 min", " never "} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the picture", want)
		}
	}
}

func TestSweepOfTwoKeysWritesEveryCell(t *testing.T) {
	in := winterMap()
	text := shown(Sweep(in))
	for _, l := range in.Lines {
		for _, e := range l.Estimates {
			want := "never\n"
			if e.Value != sim.Never {
				want = whole(e.Value.Minutes()) + "\n"
			}
			if !strings.Contains(text, want) {
				t.Errorf("%q is in no cell", want)
			}
		}
	}
}

func TestFrontKeepsThoseThatNoneBeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		aims := rapid.IntRange(2, 4).Draw(t, "aims")
		orders := make([]FrontOrder, rapid.IntRange(1, 12).Draw(t, "orders"))
		for i := range orders {
			for range aims {
				orders[i].Values = append(orders[i].Values, float64(rapid.IntRange(0, 5).Draw(t, "value")))
			}
		}
		on := front(orders, allAims(make([]Aim, aims)))
		beats := func(a, b FrontOrder) bool {
			return !slices.Equal(a.Values, b.Values) && !slices.ContainsFunc(allAims(make([]Aim, aims)), func(k int) bool { return a.Values[k] > b.Values[k] })
		}
		for i := range orders {
			beaten, beatenByFront := false, false
			for j := range orders {
				beaten = beaten || beats(orders[j], orders[i])
				beatenByFront = beatenByFront || on[j] && beats(orders[j], orders[i])
			}
			if on[i] == beaten || !on[i] && !beatenByFront {
				t.Fatalf("order %d of %v: on the front %v", i, orders, on[i])
			}
		}
	})
}

func TestScaleHasRoundSteps(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		most      int
		want      string
	}{
		{0, 100, 5, "0 20 40 60 80 100"}, {-1, 1, 4, "−1.0 −0.5 0.0 0.5 1.0"}, {3, 9, 8, "3 4 5 6 7 8 9"}, {0, 0.01, 4, "0.0000 0.0025 0.0050 0.0075 0.0100"},
	} {
		sc := scaleOver([]float64{c.low, c.high}, c.most, 0, 1)
		var got []string
		for _, v := range sc.ticks() {
			got = append(got, sc.text(v))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v to %v: %q, want %q", c.low, c.high, got, c.want)
		}
	}
}

func TestHaltOddsShowAskedOddsLatestArrivalAndDark(t *testing.T) {
	p := HaltOdds(winterHalt())
	text := shown(p)
	for _, want := range []string{"asked for: 90 %\n", "latest arrival 13:00\n", "dark\n", "arrival on the clock\n", "in time, of all evenings\n", "heated and dogs fed\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the picture", want)
		}
	}
}

func BenchmarkResults(b *testing.B) {
	odds := winterOdds(2000)
	for _, c := range []struct {
		name string
		draw func() *Picture
	}{
		{"odds", func() *Picture { return Odds(odds) }},
		{"differences", func() *Picture { return Differences(winterDifferences()) }},
		{"sweep", func() *Picture { return Sweep(winterSweep()) }},
		{"map", func() *Picture { return Sweep(winterMap()) }},
	} {
		b.Run(c.name+"/layout", func(b *testing.B) {
			for b.Loop() {
				c.draw()
			}
		})
		b.Run(c.name+"/svg", func(b *testing.B) {
			for b.Loop() {
				if _, err := c.draw().Bytes("svg"); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
