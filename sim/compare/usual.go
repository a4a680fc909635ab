package compare

import (
	"context"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// Usual plays every drill of a list once, with usual values. What it returns is
// as of [Play] with a single run that owes nothing to luck.
func Usual(ctx context.Context, drills []*sim.Drill, workers int) ([]*Played, error) {
	played := make([]*Played, len(drills))
	err := each(ctx, workers, len(drills), func(i int) {
		d := drills[i]
		p := &Played{Drill: d}
		r, luck := fast.Result{}, draw.Usual(d)
		w := fast.Compile(d).Worker()
		if w.Play(luck, &r); r.Stops != nil {
			p.Stopped, p.Stop = 1, w.Stopped(luck)
		}
		for m := range d.Milestones {
			p.Times = append(p.Times, []sim.Time{r.Milestones[m]})
		}
		played[i] = p
	})
	return played, err
}

// UsualCold is the account of cold of a drill with usual values, as of [HowCold]
// with a single run. It is nil where there is no account.
func UsualCold(d *sim.Drill) *Cold {
	if !cold.Kept(d) {
		return nil
	}
	tl := fast.Compile(d).Worker().Timeline(draw.Usual(d))
	return gather([]chill{chillOf(cold.NewMeter(d).Peaks(tl, nil))}, len(d.People))
}
