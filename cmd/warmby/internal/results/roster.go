package results

import (
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/draw"
)

// roster is who and what there is at a point: people in roster order, tasks,
// of which those that each does for himself are as many as there are people,
// stoves, and what is drawn. It is the same under all orders.
type roster struct {
	drill         *sim.Drill // of the first order
	people, tasks []string
	stoves        []sim.Stove
	sampler       *draw.Sampler
	factors       []draw.Factor
}

// rosterOf makes the roster of a point: the team may be what is varied.
func (p *Plan) rosterOf(point int) (*roster, error) {
	drills, err := p.drills(point)
	if err != nil {
		return nil, err
	}
	d := drills[0]
	there := &roster{drill: d, stoves: d.Stoves, sampler: draw.NewSampler(d)}
	there.factors = there.sampler.Factors(d)
	for i := range d.People {
		there.people = append(there.people, d.People[i].Name)
	}
	for i := range d.Tasks {
		there.tasks = append(there.tasks, d.Tasks[i].Name)
	}
	return there, nil
}

// there is the roster of a chunk that fits the batch: Results.fits has asked before.
func (p *Plan) there(c *batch.Chunk) *roster {
	there, err := p.rosters.Of(c.Point)
	if err != nil {
		panic("a roster that was there is gone: " + err.Error())
	}
	return there
}
