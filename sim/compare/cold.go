package compare

import (
	"context"
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/stats"
)

// coldRuns is in how many runs the account of cold is looked at: it takes twice
// as long as playing does, and more would tell no more than the account knows.
const coldRuns = 2000

// Cold is how cold the coldest person gets under one drill, run by run.
type Cold struct {
	// Peaks holds the most heat that anybody has lost at any moment of a run,
	// in Wh/m2, rising. Runs that came to a stop are not among them.
	Peaks   []float64
	Over    int   // in how many runs somebody passes [cold.HeatLimit]
	OverBy  []int // by person: in how many that person does
	Coldest []int // by person: in how many nobody is colder; of equals the first

	warm []bool // whether nobody passes the limit, by run; not so in one that came to a stop
}

// OverShare returns in what share of the runs somebody passes the limit.
func (c *Cold) OverShare() stats.Share { return stats.ShareOf(int64(c.Over), int64(len(c.Peaks))) }

// MostOften returns who in most runs loses more heat than anybody else, by
// index; of equals the first.
func (c *Cold) MostOften() int { return slices.Index(c.Coldest, slices.Max(c.Coldest)) }

// HeatQuantile is the heat, in Wh/m2, that the coldest person loses at most in a
// share of runs, with its 95 % interval; nil for an end that so few runs cannot
// tell.
type HeatQuantile struct {
	Value     float64
	Low, High *float64
}

// Quantile returns a quantile of the peaks, 0 < p < 1, by the rules of
// [stats.QuantileOf].
func (c *Cold) Quantile(p float64) HeatQuantile {
	q := stats.QuantileOf(places(len(c.Peaks)), p)
	at := func(rank sim.Time) *float64 {
		if rank < 1 || rank > sim.Time(len(c.Peaks)) {
			return nil
		}
		return &c.Peaks[rank-1]
	}
	return HeatQuantile{Value: c.Peaks[q.Value-1], Low: at(q.Low), High: at(q.High)}
}

// places stands for runs in order by their places, so that the rules for
// quantiles of moments serve for heat as well.
type places int

func (n places) Len() int64             { return int64(n) }
func (n places) At(rank int64) sim.Time { return sim.Time(rank) }

// HowCold keeps the account of cold of drills in the first runs of a batch, read
// as they were played. It gives nil for a drill without one: no weather, or no
// clothing.
func HowCold(ctx context.Context, played []*Played, b Batch) ([]*Cold, error) {
	b = b.first(coldRuns)
	readers := make([]*readers, len(played))
	chills := make([][]chill, len(played))
	var jobs []int // drills that have an account
	for i, p := range played {
		if cold.Kept(p.Drill) {
			readers[i] = readersOf(p.reading(), false)
			chills[i], jobs = make([]chill, b.Runs), append(jobs, i)
		}
	}
	chunks := (b.Runs + chunk - 1) / chunk
	err := each(ctx, b.Workers, len(jobs)*chunks, func(job int) {
		i, from := jobs[job/chunks], job%chunks*chunk
		r := readers[i].get()
		defer readers[i].put(r)
		for run := from; run < min(b.Runs, from+chunk); run++ {
			r.record(b.Seed, run, &chills[i][run])
		}
	})
	if err != nil {
		return nil, err
	}
	return gatherAll(played, chills), nil
}

// gatherAll sums up the accounts of some drills; nil for one that has none.
func gatherAll(played []*Played, chills [][]chill) []*Cold {
	list := make([]*Cold, len(played))
	for i, runs := range chills {
		list[i] = gather(runs, len(played[i].Drill.People))
	}
	return list
}

// chill is the account of one run: whose is the worst, -1 for nobody's, and
// who passes the limit.
type chill struct {
	who  int
	peak float64
	over []int
}

// chillOf is the account of a run of which the peaks are known.
func chillOf(peaks []cold.Peak) chill {
	c := chill{who: -1, peak: math.Inf(-1)}
	for who, p := range peaks {
		if !p.Known {
			continue
		}
		if p.Debt > c.peak {
			c.who, c.peak = who, p.Debt
		}
		if p.PassedAt != sim.Never {
			c.over = append(c.over, who)
		}
	}
	return c
}

func gather(runs []chill, people int) *Cold {
	c := &Cold{OverBy: make([]int, people), Coldest: make([]int, people), warm: make([]bool, len(runs))}
	for run, r := range runs {
		c.warm[run] = r.who >= 0 && len(r.over) == 0
		if r.who < 0 {
			continue
		}
		c.Peaks = append(c.Peaks, r.peak)
		c.Coldest[r.who]++
		if len(r.over) > 0 {
			c.Over++
		}
		for _, who := range r.over {
			c.OverBy[who]++
		}
	}
	if len(c.Peaks) == 0 {
		return nil
	}
	slices.Sort(c.Peaks)
	return c
}
