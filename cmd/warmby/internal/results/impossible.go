package results

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// LeftOut is a point at which the drill can never finish under some order,
// and why.
type LeftOut struct {
	Point  int      `json:"point"`  // from 1 on, among all that were asked for
	Values []string `json:"values"` // by key, as in points
	Order  string   `json:"order"`  // the first that can never finish
	Why    string   `json:"why"`
}

// Text says which point it is and why it cannot be played.
func (l *LeftOut) Text(keys []string) string {
	name := pointText(keys, l.Values, l.Point)
	if l.Order != "" {
		name += fmt.Sprintf(", order %q", l.Order)
	}
	return name + ": " + l.Why
}

// Impossible are points of a batch that can never finish.
type Impossible struct {
	scenario string
	keys     []string
	list     []LeftOut
	points   int // of the batch
}

func (e *Impossible) Error() string {
	lines := []string{fmt.Sprintf("%s can never finish at %d of %d points, and nothing was played:", e.scenario, len(e.list), e.points)}
	for i := range e.list {
		if i == mostWarnings && len(e.list) > mostWarnings+1 {
			lines = append(lines, fmt.Sprintf("and %d more", len(e.list)-i))
			break
		}
		lines = append(lines, e.list[i].Text(e.keys))
	}
	return strings.Join(lines, "\n  ")
}

func (e *Impossible) Hint() string {
	if len(e.list) == e.points {
		return "no point is left to play: vary something else"
	}
	return "--skip-impossible plays the other points"
}

// Ready returns the plan of a job once all its points are known to be playable.
// Those that can never finish are left out when that is asked for: then the job
// says so, and its points are the others.
func (j *Job) Ready(ctx context.Context) (*Plan, error) {
	p, err := j.plan()
	if err != nil {
		return nil, err
	}
	err = p.check(ctx)
	var bad *Impossible
	if !errors.As(err, &bad) || !j.Skip || len(bad.list) == bad.points {
		return p, err
	}
	j.LeftOut = bad.list
	j.Points = slices.DeleteFunc(slices.Clone(j.Points), func(values []string) bool {
		return slices.ContainsFunc(bad.list, func(l LeftOut) bool { return slices.Equal(l.Values, values) })
	})
	left, err := j.plan()
	if err == nil {
		left.cautions = p.cautions
	}
	return left, err
}

// impossible returns why a point can never finish under the first of its orders
// that cannot; nil when all can.
func (p *Plan) impossible(point int, drills []*sim.Drill) *LeftOut {
	for _, d := range drills {
		if err := p.hopeless(d); err != nil {
			return &LeftOut{point + 1, p.Job.Points[point], d.Order, err.Error()}
		}
	}
	return nil
}

// ofOrder names the order of a drill behind that of its scenario.
func ofOrder(d *sim.Drill) string {
	if d.Order == "" {
		return ""
	}
	return fmt.Sprintf(", order %q", d.Order)
}

// hopelessRuns is in how many runs a drill must come to a stop, beside usual
// values, to be one that can never finish.
const hopelessRuns = 10

// hopeless returns why a drill can never finish, as the file has it or in any of
// a few runs; nil when it can.
func (p *Plan) hopeless(d *sim.Drill) error {
	if err := sim.Possible(d); err != nil {
		return err
	}
	w, r := fast.Compile(d).Worker(), fast.Result{}
	if w.Usual(&r); r.Stops == nil {
		return nil
	}
	for run := range min(hopelessRuns, p.Runs) {
		if w.Run(p.Seed, run, &r); r.Stops == nil {
			return nil
		}
	}
	return w.Stopped(draw.Usual(d))
}
