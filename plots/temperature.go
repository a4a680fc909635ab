package plots

import (
	"warmby/sim"
	"warmby/sim/heat"
)

// temperatures returns the panel of shelters and pots over time, with the air
// outside.
func temperatures(curves []heat.Curve, steps []sim.Step, end sim.Time) *panelLines {
	p := &panelLines{head: "°C", high: 118, least: 10}
	for _, c := range curves {
		if len(c.Points) == 0 {
			continue
		}
		t := trace{name: clean(c.Name), lineLook: lineLooks[len(p.traces)%len(lineLooks)]}
		for _, q := range c.Points {
			t.points = append(t.points, sample{q.At, q.C})
		}
		p.traces = append(p.traces, t)
	}
	outside := trace{name: "outside", lineLook: lineLook{stroke: soft, width: 0.9}}
	for i, st := range steps {
		if !st.Weather || st.At >= end {
			continue
		}
		to := end
		if i+1 < len(steps) {
			to = min(end, steps[i+1].At)
		}
		outside.points = append(outside.points, sample{st.At, st.Air}, sample{to, st.Air})
	}
	if len(outside.points) > 0 {
		p.traces = append(p.traces, outside)
	}
	return p
}
