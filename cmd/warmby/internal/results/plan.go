package results

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/cold"
)

// Plan is a job made ready to be played.
type Plan struct {
	batch.Plan
	Job      *Job
	scenario *scenarios.Scenario
	First    *sim.Drill              // the first drill: milestones have the same names in all
	built    built                   // the drills of points
	rosters  batch.PerPoint[*roster] // who and what there is at each point
	starts   []start                 // by point; nil when the luck of all begins at run 0 of the seed
	cautions []cold.Caution          // of all points; nil until they have been looked at
}

func (j *Job) plan() (*Plan, error) {
	s, err := scenarios.Read(j.Name, []byte(j.Scenario))
	if err != nil {
		return nil, err
	}
	p := &Plan{Job: j, scenario: s}
	p.Plan = batch.Plan{
		Seed: j.Seed, Runs: j.Runs, Points: len(j.Points), Drills: p.drills,
		Tasks: j.Tasks, People: j.People, Cold: j.Cold || j.People, Fuel: j.Fuel,
	}
	p.rosters.Make = p.rosterOf
	if p.starts, err = j.startsOf(); err != nil {
		return nil, err
	}
	if j.given != nil || p.starts != nil {
		p.Luck = p.luckOf
	}
	drills, err := p.drills(0)
	if err != nil {
		return nil, err
	}
	p.First = drills[0]
	if j.given != nil {
		if err := j.given.settle(j, p.First); err != nil {
			return nil, err
		}
	}
	if j.Precision != "" {
		if p.Until, err = j.until(p.First); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// drills returns the drills of a point, one for each order.
func (p *Plan) drills(point int) ([]*sim.Drill, error) { return p.built.of(point, p.build) }

func (p *Plan) build(point int) ([]*sim.Drill, error) {
	s, err := p.at(point)
	if err != nil {
		return nil, varyError(p.Job.varyFlag(), err)
	}
	var list []*sim.Drill
	for _, order := range p.Job.Orders {
		d, err := s.Drill(order)
		if err != nil {
			return nil, err
		}
		list = append(list, d)
	}
	return list, nil
}

// Cautions returns what all points together call for. Points that cannot be
// made again, which merging has refused before, call for nothing.
func (p *Plan) Cautions() []cold.Caution {
	if p.cautions != nil {
		return p.cautions
	}
	for point := range p.Points {
		if drills, err := p.drills(point); err == nil {
			p.cautions = cold.Joint(p.cautions, cold.Cautions(drills[0], nil))
		}
	}
	return p.cautions
}

// varyError puts what scenarios says of a key in the form of a mistake on the
// command line.
func varyError(flag string, err error) error {
	what, hint, _ := strings.Cut(err.Error(), "\n  hint: ")
	if hint == "" && flag == "--vary" {
		hint = "such as people=4..10, or \"weather.air=-40 C..-10 C step 5 C\""
	}
	return &mistake.Usage{What: flag + " " + what, Cure: strings.ReplaceAll(hint, "\n", " ")}
}

// varyFlag names what the keys come from.
func (j *Job) varyFlag() string {
	if j.Design != "" {
		return "--design " + j.Design + ":"
	}
	return "--vary"
}

// pointName says what a point is, for people: "point 3 (people=6)".
func (p *Plan) pointName(point int) string {
	return pointText(p.Job.Keys, p.Job.Points[point], point+1)
}

// pointText is the name of a point with its values by key and its number.
func pointText(keys, point []string, number int) string {
	var values []string
	for i, key := range keys {
		if v := point[i]; v != "" {
			values = append(values, key+"="+v)
		}
	}
	name := fmt.Sprintf("point %d", number)
	if len(values) > 0 {
		name += " (" + strings.Join(values, ", ") + ")"
	}
	return name
}

// check refuses, before anything is played, points that can never finish, all
// of them together, and one that has other milestones than the first.
func (p *Plan) check(ctx context.Context) error {
	kept := false // whether there is an account of cold
	bad := &Impossible{scenario: p.Job.Name, keys: p.Job.Keys, points: p.Points}
	for point := range p.Points {
		if err := ctx.Err(); err != nil {
			return err
		}
		drills, err := p.drills(point)
		if err != nil {
			return err
		}
		p.cautions = cold.Joint(p.cautions, cold.Cautions(drills[0], nil))
		if len(p.Job.Keys) > 0 {
			if l := p.impossible(point, drills); l != nil {
				bad.list = append(bad.list, *l)
			}
		}
		for _, d := range drills {
			kept = kept || cold.Kept(d)
			if len(p.Job.Keys) == 0 {
				if err := p.hopeless(d); err != nil {
					return fmt.Errorf("%s%s: %w", p.Job.Name, ofOrder(d), err)
				}
			}
			if !sameMilestones(d, p.First) {
				return &mistake.Usage{What: fmt.Sprintf("%s has other milestones than the first point", p.pointName(point)), Cure: "play it as a batch of its own"}
			}
		}
	}
	if len(bad.list) > 0 {
		return bad
	}
	if p.Job.Cold && !kept {
		return &mistake.Usage{What: fmt.Sprintf("--cold: %s has no account of cold: it needs weather, and what somebody wears on the march and at the halt", p.Job.Name), Cure: "such as clothing: {march: 1.6 clo, halt: 3.5 clo}"}

	}
	return nil
}

func sameMilestones(a, b *sim.Drill) bool {
	return slices.EqualFunc(a.Milestones, b.Milestones, func(x, y sim.Milestone) bool { return x.Name == y.Name })
}
