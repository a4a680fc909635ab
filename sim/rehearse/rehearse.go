// Package rehearse works out what there is to say about one drill that was
// played: how usual it is, who gets too cold, what the dark cost, how long a
// lookout may stand, and what to shorten first.
//
// Results do not depend on the number of workers. Nothing here has words for
// people.
package rehearse

import (
	"context"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/fast"
	"warmby/sim/heat"
	"warmby/sim/inside"
)

// Rehearsal is one drill as played, and all that was worked out about it.
type Rehearsal struct {
	*sim.Timeline
	Accounts []cold.Person // how cold each person gets in this drill
	// Evenings is the drill played with drawn values; nil when nothing in it is
	// left to luck.
	Evenings *compare.Played
	Cold     *compare.Cold // how cold they get in the evenings; nil without an account
	InLight  *sim.Timeline // the drill as if it stayed light; nil when the dark slows nothing
	// Rooms is the air of each shelter to the end, Alone when a lit stove is left
	// alone, Assumed who was inside against those whom warm-ups count on.
	Rooms   []heat.Room
	Alone   []inside.Left
	Assumed []inside.Assumption
	Reliefs []Relief // of the lookouts with relief, when there is an account of cold
	Shorten *Shorten // nil when nothing that is given can be shortened to any use
}

// Of works out a rehearsal of a timeline. The batch says how many evenings are
// drawn, none for 0, and with which seed.
func Of(ctx context.Context, tl *sim.Timeline, b compare.Batch) (*Rehearsal, error) {
	r := &Rehearsal{Timeline: tl, Accounts: cold.Account(tl), InLight: inLight(tl),
		Rooms: heat.RoomsOf(tl), Alone: inside.Alone(tl), Assumed: inside.Assumed(tl)}
	if anyAccount(r.Accounts) {
		r.Reliefs = reliefs(tl, r.Accounts)
	}
	if err := r.drawEvenings(ctx, b); err != nil {
		return nil, err
	}
	r.Shorten = r.shorten(b)
	return r, nil
}

func (r *Rehearsal) drawEvenings(ctx context.Context, b compare.Batch) error {
	if b.Runs == 0 || !IsDrawn(r.Drill) {
		return nil
	}
	played, kept, err := compare.PlayCold(ctx, []*sim.Drill{r.Drill}, b)
	if err != nil {
		return err
	}
	r.Evenings, r.Cold = played[0], kept[0]
	return nil
}

// Quickly returns in how many of the evenings a milestone came at least as soon
// as in the timeline; 0 for one that never came.
func (r *Rehearsal) Quickly(milestone int) (count int) {
	at := r.Milestones[milestone]
	for _, t := range r.Evenings.Times[milestone] {
		if at != sim.Never && t <= at {
			count++
		}
	}
	return count
}

// InTime returns in how many of the evenings a milestone met its target.
func (r *Rehearsal) InTime(milestone int) (count int) {
	for _, t := range r.Evenings.Times[milestone] {
		if r.Drill.Milestones[milestone].Met(t) {
			count++
		}
	}
	return count
}

// IsDrawn reports whether anything in a drill is left to luck.
func IsDrawn(d *sim.Drill) bool {
	varies := func(q sim.Distribution) bool { return q != nil && q.Quantile(0.001) != q.Quantile(0.999) }
	if varies(d.Day) || len(d.Weather) > 1 {
		return true
	}
	for _, p := range d.People {
		if varies(p.Arrives) || varies(p.Day) {
			return true
		}
	}
	for _, l := range d.Loads {
		if varies(l.Arrives) {
			return true
		}
	}
	for i := range d.Tasks {
		chances := d.MishapChances(i)
		if varies(d.Tasks[i].Amount) || slices.ContainsFunc(chances, func(p float64) bool { return p < 1 }) || chances != nil && varies(d.Tasks[i].Mishap.Adds) {
			return true
		}
	}
	return false
}

// playAgain plays a changed drill with the luck of a timeline.
func playAgain(d *sim.Drill, luck *sim.Luck) *sim.Timeline {
	return fast.Compile(d).Worker().Timeline(luck)
}
