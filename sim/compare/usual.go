package compare

import (
	"context"
	"errors"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// Usual plays every drill of a list once, with usual values. What it returns is
// as of [Play] with a single run that owes nothing to luck; a drill that comes
// to a stop has reached nothing.
func Usual(ctx context.Context, drills []*sim.Drill, workers int) ([]*Played, error) {
	played := make([]*Played, len(drills))
	err := each(ctx, workers, len(drills), func(i int) error {
		d := drills[i]
		program, err := fast.Compile(d)
		if err != nil {
			return err
		}
		p := &Played{Drill: d}
		tl, err := program.Worker().Timeline(draw.Usual(d))
		if errors.As(err, &p.Stop) {
			p.Stopped = 1
		} else if err != nil {
			return err
		}
		for m := range d.Milestones {
			at := sim.Never
			if tl != nil && p.Stopped == 0 {
				at = tl.Milestones[m]
			}
			p.Times = append(p.Times, []sim.Time{at})
		}
		played[i] = p
		return nil
	})
	return played, err
}

// UsualCold is the account of cold of a drill with usual values, as of [HowCold]
// with a single run. It is nil where there is no account, and where the drill
// comes to a stop.
func UsualCold(d *sim.Drill) (*Cold, error) {
	if !cold.Kept(d) {
		return nil, nil
	}
	program, err := fast.Compile(d)
	if err != nil {
		return nil, err
	}
	tl, err := program.Worker().Timeline(draw.Usual(d))
	var never *sim.NeverError
	switch {
	case errors.As(err, &never):
		return nil, nil
	case err != nil:
		return nil, err
	}
	return gather([]chill{chillOf(cold.NewMeter(d).Peaks(tl, nil))}, len(d.People)), nil
}
