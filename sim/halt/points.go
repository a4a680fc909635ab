package halt

import (
	"context"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Point is what comes of one arrival.
type Point struct {
	Drill   *sim.Drill
	OnTime  []*stats.Share // by milestone; nil without a target
	Well    compare.Well   // how often all is well
	Cold    *compare.Cold  // who gets too cold how often; nil without an account
	Stopped int            // runs that came to a stop
	Stop    error          // what the first of them stopped at, a *[sim.NeverError]
}

// Play plays drills, one for each arrival, in all runs of a batch, with the
// account of cold as [compare.PlayCold] keeps it. The error is that of the context.
func Play(ctx context.Context, drills []*sim.Drill, b compare.Batch) ([]Point, error) {
	played, accounts, err := compare.PlayCold(ctx, drills, b)
	if err != nil {
		return nil, err
	}
	return pointsOf(played, accounts), nil
}

// PlayUsual plays drills once each with usual values: each milestone is in time
// in 1 run of 1, or in none.
func PlayUsual(ctx context.Context, drills []*sim.Drill, workers int) ([]Point, error) {
	played, err := compare.Usual(ctx, drills, workers)
	if err != nil {
		return nil, err
	}
	accounts := make([]*compare.Cold, len(played))
	for i, p := range played {
		accounts[i] = compare.UsualCold(p.Drill)
	}
	return pointsOf(played, accounts), nil
}

func pointsOf(played []*compare.Played, accounts []*compare.Cold) (points []Point) {
	well := compare.HowWell(played, accounts)
	for i, p := range played {
		points = append(points, Point{Drill: p.Drill, OnTime: onTime(p), Well: well[i], Cold: accounts[i], Stopped: p.Stopped, Stop: p.Stop})
	}
	return points
}

// onTime returns in what share of runs each milestone is in time; nil for one
// without a target. One that never comes, as dark in summer, is none.
func onTime(p *compare.Played) []*stats.Share {
	out := make([]*stats.Share, len(p.Drill.Milestones))
	for m, milestone := range p.Drill.Milestones {
		if milestone.ByText == "" || milestone.By == sim.Never {
			continue
		}
		var met int64
		for _, at := range p.Times[m] {
			if milestone.Met(at) {
				met++
			}
		}
		share := stats.ShareOf(met, int64(len(p.Times[m])))
		out[m] = &share
	}
	return out
}
