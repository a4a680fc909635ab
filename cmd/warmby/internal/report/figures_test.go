package report

import (
	"testing"
	"time"

	"warmby/sim"
	"warmby/sim/stats"
)

func at(h, m, s int) sim.Time {
	return sim.Time(h)*sim.Hour + sim.Time(m)*sim.Minute + sim.Time(s)*sim.Second
}

// Each figure by hand, for people and in full.
func TestFiguresInBothPrecisions(t *testing.T) {
	arrival := time.Date(2027, 1, 16, 14, 55, 0, 0, time.FixedZone("", 2*3600))
	site := Site{arrival, "evenings"}
	low, high := 33.04, 36.12
	for _, c := range []struct {
		f            Figure
		people, full string
	}{
		{Length(at(1, 17, 29)), "1 h 17 min", "1 h 17 min 29 s"},
		{Length(at(0, 0, 20)), "under 1 min", "20 s"},
		{Length(0), "0 min", "0 s"},
		{Length(sim.Never), "never", "never"},
		{Since(at(1, 3, 28)), "1 h 04 min", "1 h 03 min 28 s"}, // by then it has come
		{Stopwatch(at(1, 12, 30)), "73 min", "72:30"},
		{Stopwatch(-at(0, 0, 90)), "-2 min", "-1:30"},
		{site.Came(at(1, 3, 28)), "15:59", "15:58:28"},
		{site.Came(at(1, 4, 0)), "15:59", "15:59:00"},
		{site.At(at(1, 3, 28)), "15:58", "15:58:28"},
		{site.Came(sim.Never), "never", "never"},
		{Site{}.Came(at(1, 3, 28)), "1 h 04 min", "1 h 03 min 28 s"},
		// Days are those of the calendar at the site: 23 h 55 min later is the next.
		{site.At(at(9, 4, 59)), "23:59", "23:59:59"},
		{site.At(at(9, 5, 0)), "00:00 +1 d", "00:00:00 +1 d"},
		{site.At(at(24, 0, 0)), "14:55 +1 d", "14:55:00 +1 d"},
		{site.At(at(33, 5, 0)), "00:00 +2 d", "00:00:00 +2 d"},
		{site.At(-at(15, 0, 0)), "23:55 -1 d", "23:55:00 -1 d"},
		{Share{stats.ShareOf(689, 1000), "evenings"}, "7 evenings in 10", "689 of 1000 evenings (66 to 72 %)"},
		{Share{stats.ShareOf(689, 1000), ""}, "7 in 10", "689 of 1000 (66 to 72 %)"},
		{Share{stats.ShareOf(100, 1000), "evenings"}, "1 evening in 10", "100 of 1000 evenings (8 to 12 %)"},
		{Share{stats.ShareOf(0, 1000), "evenings"}, "no evening", "0 of 1000 evenings (0.0 to 0.4 %)"},
		{Share{stats.ShareOf(1000, 1000), "evenings"}, "every evening", "1000 of 1000 evenings (99.6 to 100.0 %)"},
		{Share{stats.ShareOf(10, 1000), "evenings"}, "1 evening in 100", "10 of 1000 evenings (0.5 to 1.8 %)"},
		{Share{stats.ShareOf(50, 1000), "evenings"}, "1 evening in 20", "50 of 1000 evenings (4 to 7 %)"},
		{Share{stats.ShareOf(20, 1000), ""}, "1 in 50", "20 of 1000 (1 to 3 %)"},
		{Share{stats.ShareOf(2, 1000), "evenings"}, "hardly any evening", "2 of 1000 evenings (<0.1 to 0.7 %)"},
		{Share{stats.ShareOf(949, 1000), "evenings"}, "9 evenings in 10", "949 of 1000 evenings (93 to 96 %)"},
		{Share{stats.ShareOf(950, 1000), "evenings"}, "19 evenings in 20", "950 of 1000 evenings (93 to 96 %)"},
		{Share{stats.ShareOf(990, 1000), ""}, "99 in 100", "990 of 1000 (98.2 to 99.5 %)"},
		{Share{stats.ShareOf(998, 1000), ""}, "nearly all", "998 of 1000 (99.3 to >99.9 %)"},
		{Share{stats.ShareOf(998, 1000), "evenings"}, "nearly every evening", "998 of 1000 evenings (99.3 to >99.9 %)"},
		{Share{stats.ShareOf(1000, 1000), ""}, "all", "1000 of 1000 (99.6 to 100.0 %)"},
		{Count{1, "evening"}, "1 evening", "1 evening"},
		{Count{3, "evening"}, "3 evenings", "3 evenings"},
		{Quantity{Value: 34.44, Low: &low, High: &high, Unit: "Wh/m2", Decimals: 1}, "34 Wh/m2", "34.4 (33.0 to 36.1) Wh/m2"},
		{Quantity{Value: 0.83, Unit: "L", Decimals: 2}, "0.8 L", "0.83 L"},
		{Quantity{Value: -0.2, Unit: "C"}, "0 C", "0 C"},
		{Percent(0.9), "90 %", "90 %"},
		{Difference{stats.Mean{Value: 81_000, Low: 42_000, High: 121_000, Runs: 100}}, "1 min sooner", "1 min 21 s sooner (42 s to 2 min 01 s)"},
		{Difference{stats.Mean{Value: -81_000, Low: -121_000, High: 5_000, Runs: 100}}, "1 min later", "1 min 21 s later (2 min 01 s later to 5 s sooner)"},
		{Difference{stats.Mean{Value: 20_000, Low: 10_000, High: 30_000, Runs: 100}}, "level", "20 s sooner (10 s to 30 s)"},
		{Date(arrival), "Sat 16 Jan 14:55", "Sat 16 Jan 2027 14:55 +02:00"},
	} {
		if got := c.f.Write(People); got != c.people {
			t.Errorf("%T %v for people: %q, want %q", c.f, c.f, got, c.people)
		}
		if got := c.f.Write(Full); got != c.full {
			t.Errorf("%T %v in full: %q, want %q", c.f, c.f, got, c.full)
		}
	}
}

func TestSentencesKeepTheirFigures(t *testing.T) {
	s := Say("{} in {}, {} of {}", "tent up", Length(at(0, 30, 10)), 2, Say("{} tents", 3))
	if got, want := s.Write(People), "tent up in 30 min, 2 of 3 tents"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := s.Write(Full), "tent up in 30 min 10 s, 2 of 3 tents"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := Briefly(s).Write(Full), s.Write(People); got != want {
		t.Errorf("briefly: got %q, want %q", got, want)
	}
	if got, want := Listed([]Sentence{Say("a"), Say("b"), Say("c")}).Write(People), "a, b and c"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	defer func() {
		if recover() == nil {
			t.Error("a pattern with two places took one part")
		}
	}()
	Say("{} and {}", "one")
}
