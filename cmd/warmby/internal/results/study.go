package results

import (
	"strings"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// Study returns what a paper has to say of a batch that is told as b.
func (r *Results) Study(b report.Batched) (report.Study, error) {
	p, j := r.Plan, r.Plan.Job
	drills, err := p.drills(0)
	if err != nil {
		return report.Study{}, err
	}
	return report.Study{
		Batched: b, Drills: drills, Usual: reference.Play(drills[0], draw.Usual(drills[0])), File: j.FileArg(), SHA256: j.SHA256, Version: j.Version, Engine: j.Engine, Source: j.Source,
		How: r.howText(), Common: p.common(), Cold: j.Cold, Stages: j.stagesText(), Given: strings.TrimSpace(j.givenText()),
	}, nil
}
