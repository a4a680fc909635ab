package cold

import "warmby/sim"

// Verdict is where somebody stands against the limit of the account. Classes of
// effort tell a metabolic rate to some 20 % (ISO 8996, from memory), so the
// account is played with that much more and less as well.
type Verdict int

// Where somebody may stand against the limit, mildest first.
const (
	NoVerdict Verdict = iota // no account
	Within                   // with all three rates the debt stays under the limit
	Near                     // with some it passes it
	Over                     // with all three it passes it
	FarOver                  // with the rate as it is it passes three times the limit
)

// rateError is how far off a metabolic rate by class of effort may be. From memory,
// ISO 8996.
const rateError = 0.2

// farOver is how many times the limit is far over it.
const farOver = 3

// Griefahn is a caveat that goes with the account.
const Griefahn = "The standard's authors found it wanting at 165 W/m2 and more and for work that varies much (Griefahn, Applied Ergonomics 31 (2000) 423)."

// judge works out the verdicts of people from the accounts with more and less
// metabolic rate.
func judge(tl *sim.Timeline, people []Person) {
	less := newMeter(tl.Drill, 1-rateError).Peaks(tl, nil)
	more := newMeter(tl.Drill, 1+rateError).Peaks(tl, nil)
	for i := range people {
		p := &people[i]
		if p.Why != "" {
			continue
		}
		p.Least, p.Most = min(more[i].Debt, p.Peak), max(less[i].Debt, p.Peak)
		p.Verdict = verdict(p.Least, p.Peak, p.Most)
	}
}

// verdict returns the answer to the least peak, the one with the rate as it is and
// the most.
func verdict(least, peak, most float64) Verdict {
	switch {
	case peak >= farOver*HeatLimit:
		return FarOver
	case most < HeatLimit:
		return Within
	case least < HeatLimit:
		return Near
	}
	return Over
}
