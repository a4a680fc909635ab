package stats

import (
	"fmt"

	"warmby/sim"
)

// Paired holds a against b run by run, both under the same luck. The zero value
// is empty; parts merge exactly.
type Paired struct {
	Less    Tally // a - b, of the runs that reach both
	Runs    int64
	ASooner int64 // runs in which a comes sooner, or comes and b never does
	BSooner int64
	ANever  int64 // runs that never reach a; those that reach neither included
	BNever  int64
}

// Add counts one run.
func (p *Paired) Add(a, b sim.Time) {
	p.Runs++
	switch {
	case a < b:
		p.ASooner++
	case b < a:
		p.BSooner++
	}
	if a == sim.Never {
		p.ANever++
	}
	if b == sim.Never {
		p.BNever++
	}
	if a != sim.Never && b != sim.Never {
		p.Less.Add(a - b)
	}
}

// Merge adds all that another holds.
func (p *Paired) Merge(o Paired) {
	p.Less.Merge(o.Less)
	p.Runs += o.Runs
	p.ASooner += o.ASooner
	p.BSooner += o.BSooner
	p.ANever += o.ANever
	p.BNever += o.BNever
}

// Difference is what a paired comparison found.
type Difference struct {
	// Mean is of a - b in milliseconds: negative when a is sooner. It is absent
	// when either is never reached in some run.
	Mean    Mean
	ASooner Share // runs in which a comes sooner; ties count for neither
	BSooner Share
	// P is Holm's adjusted p value of the mean within its family; without a
	// family that of the mean alone. 1 when there is no mean.
	P float64
	// Doubt says why nobody is called ahead, whatever P is: [WhyRare] or
	// [WhySkewed]; "" for none.
	Doubt string
}

// Why a difference calls nobody ahead, however clear it looks.
const (
	WhyRare   = "something is drawn that so few runs see too seldom"
	WhySkewed = "so few runs are too few for how skewed the differences are"
)

// Ahead tells which of the two is sooner on average, beyond what luck explains:
// -1 for a, 1 for b, 0 when there is no telling, be it for few runs.
func (d Difference) Ahead() int {
	switch {
	case !d.Mean.OK() || d.Mean.Runs < FewRuns || d.Doubt != "" || d.P > 1-Level:
		return 0
	case d.Mean.Value < 0:
		return -1
	}
	return 1
}

// Turned returns the difference the other way round: b - a.
func (d Difference) Turned() Difference {
	d.Mean = d.Mean.Negated()
	d.ASooner, d.BSooner = d.BSooner, d.ASooner
	return d
}

// Difference returns the paired difference with its 95 % interval (Student's t
// of the differences).
func (p *Paired) Difference() Difference { return p.differenceAt(Level) }

func (p *Paired) differenceAt(level float64) Difference {
	d := Difference{Mean: p.Less.MeanAt(level), P: 1}
	d.ASooner, d.BSooner = ShareOf(p.ASooner, p.Runs), ShareOf(p.BSooner, p.Runs)
	if p.ANever > 0 || p.BNever > 0 {
		d.Mean = (&Tally{Runs: p.Runs, Never: 1}).MeanAt(level)
		d.Mean.Why = fmt.Sprintf("never reached in %d runs of the one and %d of the other, of %d", p.ANever, p.BNever, p.Runs)
	}
	d.P = d.Mean.pValue()
	return d
}
