package split

import (
	"context"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
)

// Case is a scenario as a what-if changes it. Orders are those of the game, in
// their sequence.
type Case struct {
	Name   string // of the what-if
	Bare   *sim.Drill
	Orders []*sim.Drill
}

// Case plays the splits of a size in a case, on the runs of the game: a team of
// n people is the first n of the game's own roster, less those who are absent
// in the case. Groups keep what they do and who is in them, by name. A split
// that cannot be played there is nil.
func (g *Game) Case(ctx context.Context, size *Size, c *Case) ([]*compare.Played, error) {
	var drills []*sim.Drill
	var where []int
	for i, s := range size.Splits {
		d := g.inCase(size.People, s, c)
		if d == nil {
			continue
		}
		if sim.Possible(d) != nil {
			continue
		}
		drills, where = append(drills, d), append(where, i)
	}
	played, err := g.tellOf(ctx, drills)
	if err != nil {
		return nil, err
	}
	out := make([]*compare.Played, len(size.Splits))
	for i, p := range played {
		if p.Stopped < len(p.Times[0]) {
			out[where[i]] = p
		}
	}
	return out, nil
}

// inCase returns a split of a team of n as a drill of a case; nil when nobody
// of the team is there.
func (g *Game) inCase(n int, s *Split, c *Case) *sim.Drill {
	there := teamInCase(g.Bare, c.Bare, n)
	if there == 0 {
		return nil
	}
	if s.there {
		i := slices.IndexFunc(g.Orders, func(o *sim.Drill) bool { return o.Order == s.Order })
		return Team(c.Orders[i], there)
	}
	bare := Team(c.Bare, there)
	o := sim.Order{Crews: crewsInCase(Team(g.Bare, n), s.Drill, bare)}
	for _, was := range s.Drill.Groups {
		is := sim.Group{Name: was.Name, Then: was.Then, InTurn: was.InTurn}
		for _, t := range was.Sequence[was.Lead:] {
			name := s.Drill.Tasks[t].Name
			if k := slices.IndexFunc(bare.Tasks, func(t sim.Task) bool { return t.Name == name }); k >= 0 {
				is.Sequence = append(is.Sequence, k)
			}
		}
		for _, p := range was.People {
			if k := personInCase(g.Bare, c.Bare, s.Drill.People[p].Name, p); k >= 0 {
				is.People = append(is.People, k)
			}
		}
		o.Groups = append(o.Groups, is)
	}
	return bare.Under(o)
}

// crewsInCase narrows the crews of a case as a split narrows its own, as far as that
// can be.
func crewsInCase(own, split, in *sim.Drill) (list []sim.CrewChoice) {
	for i := range split.Tasks {
		k := slices.IndexFunc(in.Tasks, func(t sim.Task) bool { return t.Name == split.Tasks[i].Name })
		if k < 0 || split.Tasks[i].Crew == own.Tasks[i].Crew {
			continue
		}
		crew := sim.Crew{Min: max(in.Tasks[k].Crew.Min, split.Tasks[i].Crew.Min), Max: min(in.Tasks[k].Crew.Max, split.Tasks[i].Crew.Max)}
		if crew.Min <= crew.Max {
			list = append(list, sim.CrewChoice{Task: k, Crew: crew})
		}
	}
	return list
}

// teamInCase returns how many of a team of n are there in a case. They are the
// first of its roster.
func teamInCase(own, in *sim.Drill, n int) int {
	there := max(0, n-len(own.People)) // copies of the last one
	for _, p := range own.People[:min(n, len(own.People))] {
		if indexOf(in, p.Name) >= 0 {
			there++
		}
	}
	return there
}

// personInCase returns the place in the roster of a case of somebody who has
// this name and place in the game's team; -1 for somebody absent.
func personInCase(own, in *sim.Drill, name string, place int) int {
	if over := place - len(own.People); over >= 0 {
		return len(in.People) + over
	}
	return indexOf(in, name)
}

func indexOf(d *sim.Drill, name string) int {
	return slices.IndexFunc(d.People, func(p sim.Person) bool { return p.Name == name })
}
