package rehearse_test

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/rehearse"
)

// A relief that is proposed is no longer than the published schedule lets somebody
// stand there, and with it nobody who stands there passes the limit of cold.
func TestNoReliefIsProposedBeyondTheScheduleOrTheLimit(t *testing.T) {
	proposed, bound := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := dressed(t, drills.Draw(t))
		luck := draw.Usual(d)
		r, err := rehearse.Of(context.Background(), fast.Compile(d).Worker().Timeline(luck), compare.Batch{})
		if err != nil {
			t.Fatal(err)
		}
		for _, relief := range r.Reliefs {
			if relief.Longest == 0 {
				continue
			}
			proposed++
			if relief.Longest > cold.LongestStand(r.Timeline, relief.Lookout) {
				t.Errorf("%v is proposed, the schedule allows %v", relief.Longest, relief.Most)
			}
			if relief.Most < rehearse.ReliefLongest {
				bound++
			}
			changed := *d
			changed.Lookouts = append([]sim.Lookout(nil), d.Lookouts...)
			changed.Lookouts[relief.Lookout].Relief = relief.Longest
			tl := fast.Compile(&changed).Worker().Timeline(luck)
			for who, p := range cold.Account(tl) {
				if p.PassedAt != sim.Never && stands(tl, who, relief.Lookout) {
					t.Errorf("%s passes the limit with the relief proposed, %v", p.Name, relief.Longest)
				}
			}
		}
	})
	if proposed < 20 || bound < 5 {
		t.Errorf("%d reliefs proposed, %d of them bound by the schedule: too few to tell", proposed, bound)
	}
}

// dressed lets the lookouts of a drill be stood in the open by people in winter
// clothing, with a relief.
func dressed(t *rapid.T, d *sim.Drill) *sim.Drill {
	out := *d
	out.People = append([]sim.Person(nil), d.People...)
	for i := range out.People {
		out.People[i].March, out.People[i].Halt = 2, 4
	}
	out.Lookouts = append([]sim.Lookout(nil), d.Lookouts...)
	for i := range out.Lookouts {
		if l := &out.Lookouts[i]; !l.Hurt && l.Relief == 0 {
			l.Relief = sim.Time(rapid.IntRange(3, 40).Draw(t, "relief")) * sim.Minute
		}
	}
	return &out
}

func stands(tl *sim.Timeline, who, lookout int) bool {
	for _, s := range tl.People[who] {
		if s.What == sim.Watching && s.Lookout == lookout {
			return true
		}
	}
	return false
}
