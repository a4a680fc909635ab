package fit

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/internal/thorough"
)

// truth is what made a synthetic log.
type truth struct {
	level, spread []float64
	day           float64
}

// synthetic makes rows from a truth that is drawn as real teams differ from a
// file: all slower or faster, each task by itself, spreads too; and some rows
// are censored.
func synthetic(s source, laws []Law, drills int) (truth, []Row) {
	tr := truth{day: 0.05 + 0.15*s.uniform()}
	shift := [2]float64{0.1 * s.normal(), 0.1 + 0.2*s.normal()}
	for _, l := range laws {
		tr.level = append(tr.level, l.Level+shift[groupOf(l)]+0.25*s.normal())
		tr.spread = append(tr.spread, l.Spread*math.Exp(0.1+0.3*s.normal()))
	}
	var rows []Row
	for d := range drills {
		c := tr.day * s.normal()
		for i, l := range laws {
			y := tr.level[i] + tr.spread[i]*s.normal()
			if l.Work {
				y += c
			}
			r := Row{Task: l.Task, Drill: d, Log: y}
			// watched until a moment that has nothing to do with how it goes
			if watched := tr.level[i] + 0.3 + 0.6*s.normal(); watched < y {
				r.Log, r.Kind = watched, AtLeast
			}
			rows = append(rows, r)
		}
	}
	return tr, rows
}

func someLaws(n int) []Law {
	laws := make([]Law, n)
	for i := range laws {
		laws[i] = Law{Task: i, Level: math.Log(float64(5+3*i) * 60000), Spread: 0.12 + 0.02*float64(i%8), Work: i%3 != 0}
	}
	return laws
}

// TestRangesOfTasksHoldTruth fits synthetic logs and asks how much of the true
// law of the next drill lies in the 80 % range foretold.
func TestRangesOfTasksHoldTruth(t *testing.T) {
	logs, most := 40, 0.06
	if thorough.Asked() {
		logs, most = 120, 0.03
	}
	laws := someLaws(12)
	for _, n := range []int{3, 5, 8, 16} {
		inside, count := 0.0, 0.0
		for k := range logs {
			s := newSource(uint64(1000*n+k), 7)
			tr, rows := synthetic(s, laws, n)
			p := Chain(&Model{Laws: laws, Drills: n, Day: 0.1}, rows, Quick, 1, k)
			for i, l := range laws {
				next := p.Next(i, nil)
				sd := tr.spread[i]
				if l.Work {
					sd = math.Hypot(sd, tr.day)
				}
				law := distuv.Normal{Mu: tr.level[i], Sigma: sd}
				inside += law.CDF(next.logQuantile(0.9)) - law.CDF(next.logQuantile(0.1))
				count++
			}
		}
		if got := inside / count; math.Abs(got-0.8) > most {
			t.Errorf("%d drills: the 80 %% ranges hold %.3f of the truth", n, got)
		} else {
			t.Logf("%d drills: %.4f", n, got)
		}
	}
}
