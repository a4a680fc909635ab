package search

import (
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// Case is a drill in which an order is to do well, too: what the drill searched
// may turn into. Tasks, people and milestones are those of the same names; who
// is not there is left out of an order, and crews are narrowed as far as they
// can be.
type Case struct {
	Name  string
	Drill *sim.Drill // without an order
}

// CaseResult is what can be said of a case whatever the order.
type CaseResult struct {
	Name string // "" for the drill itself
	// Why says why the case has no part in the judgement; "" when it has.
	Why string
	// Bound is what no order can beat in it, by aim, with its interval, in
	// milliseconds.
	Bound, BoundLow, BoundHigh []float64
}

// CaseFound is what an order gives in a case, by aim, as Value and Gain of
// [Found].
type CaseFound struct {
	Value []float64
	Gain  []Gain
}

// scene is a case made ready.
type scene struct {
	d                       *sim.Drill
	stops                   bool // whether it comes to a stop under every order tried at first
	program                 *fast.Program
	bounds                  *bound.Bounds
	usual                   *sim.Luck
	task, person, milestone []int // by those of the drill searched; -1 for none
}

// prepare makes the cases ready in which an aim can be reached, and says of the
// others why not.
func (g *game) prepare() {
	g.asked = []CaseResult{{}}
	for _, c := range g.o.Cases {
		s, why := g.newScene(c.Drill)
		if why == "" {
			reached, stops := g.reaches(s)
			if s.stops = stops; !reached {
				why = "no order tried gets there"
			}
		}
		if why == "" {
			g.scenes = append(g.scenes, s)
		}
		g.asked = append(g.asked, CaseResult{Name: c.Name, Why: why})
	}
}

func (g *game) newScene(d *sim.Drill) (s *scene, why string) {
	s = sceneIn(d, g.d)
	first := d.Under(sim.Order{Groups: s.order(g.d, g.o.Orders[0]).Groups})
	if err := sim.Possible(first); err != nil {
		return nil, err.Error()
	}
	s.program, s.bounds, s.usual = fast.Compile(first), bound.New(d), draw.Usual(d)
	at := s.bounds.Of(s.usual, nil)
	for _, wanted := range g.wanted() {
		name := g.d.Milestones[wanted].Name
		if m := s.milestone[wanted]; m < 0 || at[m] == sim.Never {
			return nil, fmt.Sprintf("no order ever reaches %q", name)
		}
	}
	return s, ""
}

// sceneIn returns a drill as one that another may turn into.
func sceneIn(d, from *sim.Drill) *scene {
	s := &scene{d: d}
	for i := range from.Tasks {
		s.task = append(s.task, d.TaskNamed(from.Tasks[i].Name))
	}
	for i := range from.People {
		name := from.People[i].Name
		s.person = append(s.person, slices.IndexFunc(d.People, func(p sim.Person) bool { return p.Name == name }))
	}
	for i := range from.Milestones {
		name := from.Milestones[i].Name
		s.milestone = append(s.milestone, slices.IndexFunc(d.Milestones, func(m sim.Milestone) bool { return m.Name == name }))
	}
	return s
}

// OrderIn returns an order of a drill as one of another that the drill may turn
// into, as a [Case] is played.
func OrderIn(d, from *sim.Drill, o sim.Order) sim.Order { return sceneIn(d, from).order(from, o) }

// reaches reports whether one of the scenario's orders, or of those of the
// priority rules, reaches the aims in a case with usual values, and whether all
// that do come to a stop after that.
func (g *game) reaches(s *scene) (reached, stops bool) {
	trial := s.program.Trial()
	var r fast.Result
	for k, o := range g.firstOrders(s.d, s.bounds, s.milestone[g.wanted()[0]]) {
		if g.left() == 0 {
			return true, reached // there is no telling
		}
		if k < len(g.o.Orders) {
			o = s.order(g.d, o)
		}
		trial.Reorder(s.d.Under(o))
		g.played.Add(1)
		trial.Play(s.usual, &r)
		if slices.ContainsFunc(g.wanted(), func(m int) bool { return r.Milestones[s.milestone[m]] == sim.Never }) {
			continue
		}
		if reached = true; r.Stops == nil {
			return true, false
		}
	}
	return reached, reached
}

// firstOrders returns the scenario's orders, and those that the priority rules
// give a drill for a milestone.
func (g *game) firstOrders(d *sim.Drill, b *bound.Bounds, milestone int) []sim.Order {
	orders := append([]sim.Order{}, g.o.Orders...)
	luck := draw.Usual(d)
	for rule := range ruleCount {
		orders = append(orders, newPlan(d, ruleList(b, rule, luck, milestone), false).order(d))
	}
	return orders
}

// order returns an order of the drill searched as one of the case.
func (s *scene) order(d *sim.Drill, o sim.Order) sim.Order {
	out := sim.Order{Name: o.Name}
	for _, c := range o.Crews {
		t := s.task[c.Task]
		if t < 0 {
			continue
		}
		own := s.d.Tasks[t].Crew
		if crew := (sim.Crew{Min: max(own.Min, c.Crew.Min), Max: min(own.Max, c.Crew.Max)}); crew.Min <= crew.Max {
			out.Crews = append(out.Crews, sim.CrewChoice{Task: t, Crew: crew})
		}
	}
	for _, det := range o.Groups {
		det.Sequence, det.People = there(s.task, det.Sequence), there(s.person, det.People)
		slices.Sort(det.People)
		out.Groups = append(out.Groups, det)
	}
	return out
}

// there returns what some things are in a case, without those that it has not.
func there(in, list []int) (out []int) {
	for _, i := range list {
		if in[i] >= 0 {
			out = append(out, in[i])
		}
	}
	return out
}

// milestoneShown returns when the milestone that the first aim is about, or the
// finish, is reached with usual values.
func (g *game) milestoneShown(c *candidate) sim.Time { return c.milestones[g.wanted()[0]] }

// columns returns where the moments of a milestone stand among those of all
// cases: in the drill itself, then in each other case.
func (g *game) columns(milestone int) (list []int) {
	for c := range len(g.scenes) + 1 {
		list = append(list, c*len(g.d.Milestones)+milestone)
	}
	return list
}

// cases is in how many drills an order is played.
func (g *game) cases() int64 { return int64(len(g.scenes) + 1) }
