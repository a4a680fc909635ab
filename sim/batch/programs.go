package batch

import (
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// programs is what it takes to play a point.
type programs struct {
	drills []*sim.Drill
	list   []*fast.Program
	luck   *draw.Sampler // nil unless the plan has a luck of its own
}

// compile compiles the drills of a point.
func (p *Plan) compile(point int) (*programs, error) {
	drills, err := p.Drills(point)
	if err != nil {
		return nil, err
	}
	set := &programs{drills: drills}
	if p.Luck != nil {
		set.luck = draw.NewSampler(drills[0])
	}
	for _, d := range drills {
		set.list = append(set.list, fast.Compile(d))
	}
	return set, nil
}
