package batch_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/stats"
)

// law is a law of moments, in milliseconds, with what is true of it.
type law struct {
	name            string
	mean, sd, share float64  // share: of moments by a target
	by              sim.Time // that target
	p90, density    float64  // the quantile of 9 in 10, and the density there; 0 where it is not asked for
	least           int      // runs to be played first, for what is rare
	draw            func(r *rand.Rand) float64
}

const minute = 60_000.0

func laws() []law {
	list := []law{longTail(20), lognormal(10, 0.8)}
	for _, chance := range []float64{0.05, 0.01, 0.001} {
		list = append(list, mishap(chance))
	}
	return list
}

// longTail is an hour and an exponential with so many minutes on average.
func longTail(minutes float64) law {
	scale := minutes * minute
	return law{name: "a long tail", mean: 60*minute + scale, sd: scale, share: 0.7, by: sim.Time(60*minute + scale*math.Log(1/0.3)),
		p90: 60*minute + scale*math.Log(10), density: 0.1 / scale,
		draw: func(r *rand.Rand) float64 { return 60*minute - scale*math.Log(1-r.Float64()) }}
}

// lognormal is an hour and a lognormal with so many minutes in the middle.
func lognormal(minutes, sigma float64) law {
	scale, z := minutes*minute, distuv.UnitNormal.Quantile(0.9)
	grow := math.Exp(sigma * sigma / 2)
	return law{name: "a longer tail", mean: 60*minute + scale*grow, sd: scale * grow * math.Sqrt(math.Exp(sigma*sigma)-1), share: 0.5, by: sim.Time(60*minute + scale),
		p90: 60*minute + scale*math.Exp(sigma*z), density: distuv.UnitNormal.Prob(z) / (scale * sigma * math.Exp(sigma*z)),
		draw: func(r *rand.Rand) float64 { return 60*minute + scale*math.Exp(sigma*r.NormFloat64()) }}
}

// mishap is an hour, more or less 5 min, and half an hour more now and then.
func mishap(chance float64) law {
	return law{name: fmt.Sprintf("mishaps of %g", chance), mean: (60 + 30*chance) * minute, sd: math.Sqrt(25+chance*(1-chance)*900) * minute,
		share: (1 - chance) * 0.5, by: sim.Time(60 * minute), least: int(math.Ceil(40 / chance)),
		draw: func(r *rand.Rand) float64 {
			at := (60 + 5*r.NormFloat64()) * minute
			if r.Float64() < chance {
				at += 30 * minute
			}
			return at
		}}
}

// The interval that --precision ends with must hold as often as it says, although
// it was looked at again and again until it was narrow.
func TestPrecisionHoldsTheTruth(t *testing.T) {
	studies := thorough.Cases(100, 2000)
	for _, l := range laws() {
		for _, wanted := range []float64{2100, 3000, 12_000} { // runs that such an interval takes
			for _, u := range l.untils(2 * 1.96 / math.Sqrt(wanted)) {
				held, runs := 0, 0
				for study := range studies {
					m, n := untilNarrow(t, l, u, rand.New(rand.NewPCG(uint64(study), uint64(wanted))))
					if runs += n; u.What == batch.Mean && n < l.least {
						t.Fatalf("%s: done after %d runs, want %d at least", l.name, n, l.least)
					}
					if l.isHeld(u, m) {
						held++
					}
				}
				got := float64(held) / float64(studies)
				t.Logf("%s, measure %d, some %.0f runs: holds in %.2f %% of %d, after %d runs", l.name, u.What, wanted, 100*got, studies, runs/studies)
				// Three standard errors and half a percent more to each side.
				if slack := 0.005 + 3*math.Sqrt(0.95*0.05/float64(studies)); math.Abs(got-0.95) > slack {
					t.Errorf("%s, measure %d, some %.0f runs: the interval holds in %.2f %% of %d studies", l.name, u.What, wanted, 100*got, studies)
				}
			}
		}
	}
}

// untils ask for intervals so many standard deviations wide.
func (l *law) untils(width float64) []batch.Until {
	list := []batch.Until{
		{What: batch.Mean, Wide: sim.Time(width * l.sd), Least: func(*sim.Drill) int { return l.least }},
		{What: batch.OnTime, Share: width * math.Sqrt(l.share*(1-l.share))},
	}
	if l.density > 0 {
		list = append(list, batch.Until{What: batch.Quantile, P: 0.9, Wide: sim.Time(width * 0.3 / l.density)})
	}
	return list
}

// untilNarrow feeds a course with draws of a law until it is done, and returns
// what came, with how many runs there were.
func untilNarrow(t *testing.T, l law, u batch.Until, r *rand.Rand) (*batch.Moments, int) {
	t.Helper()
	drills := []*sim.Drill{{Milestones: []sim.Milestone{{Name: "finish", By: l.by}}}}
	p := &batch.Plan{Points: 1, Runs: 200_000, Until: &u, Drills: func(int) ([]*sim.Drill, error) { return drills, nil }}
	course, sum := p.Course(), batch.NewSummary(drills)
	for {
		n, at := course.Stretch()
		if n == 0 {
			return &sum.Orders[0].Milestones[0], int(sum.Runs)
		}
		c := &batch.Chunk{Span: at(0), Orders: make([]batch.OrderRuns, 1)}
		for range c.Runs() {
			c.Orders[0].Milestones = append(c.Orders[0].Milestones, sim.Milliseconds(l.draw(r)))
		}
		if err := course.Add(c); err != nil {
			t.Fatal(err)
		}
		sum.Add(c)
	}
}

func (l *law) isHeld(u batch.Until, m *batch.Moments) bool {
	switch u.What {
	case batch.Mean:
		mean := m.Tally.Mean()
		return mean.Low <= l.mean && l.mean <= mean.High
	case batch.OnTime:
		s := stats.ShareOf(m.OnTime, m.Tally.Runs)
		return s.Low <= l.share && l.share <= s.High
	}
	q := stats.QuantileOf(&m.Counts, u.P)
	return float64(q.Low) <= l.p90+500 && l.p90 <= float64(q.High)+500 // whole seconds
}

// All runs are alike but one in 200, which takes an hour more: a few thousand runs
// make the interval narrow, and the mean is not well known all the same.
func TestPrecisionOfAMeanWaitsForSkewedMoments(t *testing.T) {
	l := law{by: sim.Time(61 * minute), draw: func(r *rand.Rand) float64 {
		if r.Float64() < 0.005 {
			return 120 * minute
		}
		return 60 * minute
	}}
	u := batch.Until{What: batch.Mean, Wide: sim.Minute}
	m, runs := untilNarrow(t, l, u, rand.New(rand.NewPCG(1, 1)))
	if need := stats.EnoughFor(m.Counts.Skewness()); runs <= batch.FirstStage || int64(runs) < need {
		t.Errorf("done after %d runs, want %d and more than the first stage", runs, need)
	}
	u.What, u.Share = batch.OnTime, 0.1
	if _, runs := untilNarrow(t, l, u, rand.New(rand.NewPCG(1, 1))); runs != batch.FirstStage {
		t.Errorf("a share is done after %d runs, want the first stage: it needs no more", runs)
	}
}
