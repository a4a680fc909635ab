package batch

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"warmby/sim"
	"warmby/sim/stats"
)

// Until goes on playing a point until an interval is narrow under every order.
// The number of runs is looked at in stages that follow from the runs alone, so
// that it does not depend on workers or interruptions.
//
// An interval of fixed width that is looked at until it is narrow holds as often
// as it says when the width is small (Y. S. Chow and H. Robbins, Ann. Math.
// Statist. 36 (1965) 457-462). With a first stage of thousands of runs it does: in
// 10,000 studies of laws with long tails and with mishaps 94.7 to 95.3 %. Of a
// mean it is not looked at before something rare has been seen often enough, and
// as skewed moments need.
type Until struct {
	Milestone int
	What      Measure
	P         float64  // of Quantile
	Wide      sim.Time // how far apart the ends of the interval may be, for Mean and Quantile
	Share     float64  // the same for OnTime, 0 to 1
	// Least returns how many runs of a drill are to be played before a mean is looked
	// at, if more than FirstStage; nil for no more. It is asked at each point.
	Least func(d *sim.Drill) int
}

// Measure is what the interval is of.
type Measure int

// What an interval may be of.
const (
	Mean Measure = iota
	Quantile
	OnTime
)

// FirstStage is how many runs are played before the interval is looked at.
const FirstStage = 8 * ChunkRuns

// Verdict is how a point that goes on until an interval is narrow ended.
type Verdict struct {
	Runs   int
	Narrow bool
	Wide   string // how far apart the ends are under the order where they are farthest; "" when that cannot be told
	Why    string // why it is not narrow
}

func (u *Until) first(most int) int { return min(most, FirstStage) }

// least returns how many runs a point must have before its interval is looked at, at
// most as many as there may be.
func (u *Until) least(s *Summary, most int) int {
	least := 0
	if u.What == Mean && u.Least != nil {
		for i := range s.Orders {
			least = max(least, u.Least(s.Orders[i].Drill))
		}
	}
	return min(most, chunks(least)*ChunkRuns)
}

// judge looks at the interval of a point. It returns how many runs there should
// be before it is looked at again, or as many as there are when the point is
// done.
func (u *Until) judge(s *Summary, most int) (Verdict, int) {
	runs := int(s.Runs)
	v := Verdict{Runs: runs, Narrow: true}
	if least := u.least(s, most); runs < least {
		return v, least
	}
	widest := 0.0 // against what is asked
	for i := range s.Orders {
		o := &s.Orders[i]
		wide, text, why := u.wide(&o.Milestones[u.Milestone])
		if why != "" {
			v.Narrow, v.Why = false, fmt.Sprintf("order %q: %s", o.Drill.Order, why)
			continue
		}
		if wide > widest || v.Wide == "" {
			widest, v.Wide = wide, text
		}
	}
	if widest <= 1 { // of the orders that more runs would help
		return v, runs
	}
	v.Narrow = false
	if runs >= most {
		v.Why = fmt.Sprintf("no more runs were asked for than %d", most)
		return v, runs
	}
	return v, u.next(runs, most, widest)
}

// next foretells how many runs make an interval narrow, which shrinks with the
// root of their number: between a quarter more and four times as many.
func (u *Until) next(runs, most int, widest float64) int {
	factor := math.Max(1.25, math.Min(4, 1.02*widest*widest))
	more := int(math.Ceil(float64(runs) * factor / ChunkRuns))
	return min(most, more*ChunkRuns)
}

// wide returns how wide an interval is against what is asked, and in words.
// Why says why no number of runs would make it narrow.
func (u *Until) wide(m *Moments) (against float64, text, why string) {
	switch u.What {
	case Mean:
		mean := m.Tally.Mean()
		if !mean.OK() {
			return 0, "", "there is no mean: " + mean.Why
		}
		t := sim.Milliseconds(mean.High - mean.Low)
		skewed := math.Sqrt(float64(stats.EnoughFor(m.Counts.Skewness())) / float64(m.Tally.Runs))
		return math.Max(float64(t)/float64(u.Wide), skewed), sim.Clock(t), ""
	case Quantile:
		q := stats.QuantileOf(&m.Counts, u.P)
		switch {
		case q.Low == sim.Never:
			return 0, "", fmt.Sprintf("it is not reached in %g %% of runs", 100*u.P)
		case q.High == sim.Never || q.LowOpen:
			return 2, "", "" // more runs will tell
		}
		return float64(q.High-q.Low) / float64(u.Wide), sim.Clock(q.High - q.Low), ""
	}
	s := stats.ShareOf(m.OnTime, m.Tally.Runs)
	return (s.High - s.Low) / u.Share, fmt.Sprintf("%.2f %%", 100*(s.High-s.Low)), ""
}

// ParseMeasure splits "hot drink p90" into a milestone's name and what is asked
// of it: mean, p1 to p99, or on time.
func ParseMeasure(text string) (milestone string, what Measure, p float64, err error) {
	text = strings.TrimSpace(text)
	if name, ok := strings.CutSuffix(text, " on time"); ok {
		return strings.TrimSpace(name), OnTime, 0, nil
	}
	at := strings.LastIndexByte(text, ' ')
	if at > 0 {
		name, last := strings.TrimSpace(text[:at]), text[at+1:]
		if last == "mean" {
			return name, Mean, 0, nil
		}
		if n, err := strconv.Atoi(strings.TrimPrefix(last, "p")); err == nil && last[0] == 'p' && n >= 1 && n <= 99 {
			return name, Quantile, float64(n) / 100, nil
		}
	}
	return "", 0, 0, fmt.Errorf("expected a milestone and one of mean, p1 to p99, on time, got %q", text)
}
