package halt

import (
	"context"
	"errors"
	"fmt"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// Point is what comes of one arrival.
type Point struct {
	Drill   *sim.Drill
	OnTime  []*stats.Share // by milestone; nil without a target
	Stopped int            // runs that came to a stop; they are not in time
	// Coldest is who loses most heat with usual values; nil when the account
	// cannot be made of anybody, or the drill comes to a stop then.
	Coldest *cold.Person
}

// StoppedError says that a drill comes to a stop in every run.
type StoppedError struct {
	Drill *sim.Drill // with its arrival
	First *sim.NeverError
}

func (e *StoppedError) Error() string {
	return fmt.Sprintf("arriving at %s it comes to a stop in every run: %v", e.Drill.Site.Arrival.Format("15:04"), e.First)
}

// Unwrap returns what the first run came to a stop at.
func (e *StoppedError) Unwrap() error { return e.First }

// Play plays drills, one for each arrival, in all runs of a batch, and once more
// with usual values for who is coldest. A drill that stops in every run is a
// [StoppedError].
func Play(ctx context.Context, drills []*sim.Drill, b compare.Batch) ([]Point, error) {
	played, err := compare.Play(ctx, drills, b)
	if err != nil {
		return nil, err
	}
	var points []Point
	for _, p := range played {
		if p.Stopped == len(p.Times[0]) {
			return nil, &StoppedError{p.Drill, p.Stop}
		}
		point := Point{Drill: p.Drill, Stopped: p.Stopped, OnTime: onTime(p)}
		tl, err := usual(p.Drill)
		var never *sim.NeverError
		switch {
		case errors.As(err, &never): // nothing to tell of it
		case err != nil:
			return nil, err
		default:
			point.Coldest = coldest(tl)
		}
		points = append(points, point)
	}
	return points, nil
}

// PlayUsual plays a drill once with usual values: each milestone is in time in 1
// run of 1, or in none.
func PlayUsual(d *sim.Drill) (Point, error) {
	tl, err := usual(d)
	if err != nil {
		return Point{}, err
	}
	p := &compare.Played{Drill: d}
	for _, at := range tl.Milestones {
		p.Times = append(p.Times, []sim.Time{at})
	}
	return Point{Drill: d, OnTime: onTime(p), Coldest: coldest(tl)}, nil
}

func usual(d *sim.Drill) (*sim.Timeline, error) {
	program, err := fast.Compile(d)
	if err != nil {
		return nil, err
	}
	return program.Worker().Timeline(draw.Usual(d))
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
			if at != sim.Never && at <= milestone.By { // sim.Never is the largest of all
				met++
			}
		}
		share := stats.ShareOf(met, int64(len(p.Times[m])))
		out[m] = &share
	}
	return out
}

// coldest returns who loses most heat; nil when it is not known of anybody.
func coldest(tl *sim.Timeline) *cold.Person {
	var out *cold.Person
	people := cold.Account(tl)
	for i := range people {
		if people[i].Why == "" && (out == nil || people[i].Peak > out.Peak) {
			out = &people[i]
		}
	}
	return out
}
