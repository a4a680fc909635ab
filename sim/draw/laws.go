package draw

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"sync"

	"warmby/sim"
	"warmby/sim/portable"
)

// Fixed returns the law of a quantity that is always v.
func Fixed(v float64) sim.Distribution { return fixed(v) }

type fixed float64

func (f fixed) Quantile(float64) float64 { return float64(f) }
func (f fixed) Usual() float64           { return float64(f) }

// PERT returns the beta-PERT law of shape 4: a beta distribution between
// quick and slow with its mode at usual and shapes
// 1 + 4 (usual - quick)/(slow - quick) and 1 + 4 (slow - usual)/(slow - quick);
// its mean is (quick + 4 usual + slow)/6. It asks for quick <= usual <= slow.
func PERT(quick, usual, slow float64) (sim.Distribution, error) {
	if err := threeValues(quick, usual, slow); err != nil {
		return nil, err
	}
	if quick == slow {
		return fixed(usual), nil
	}
	return &pert{quick: quick, usual: usual, slow: slow, covers: 1}, nil
}

// PERTCovering returns the beta-PERT law of shape 4 with its mode at usual
// that falls between quick and slow with chance covers, and with equal
// chances below quick and above slow. Its own extremes lie farther out. Where
// the lower one would be under 0, no length is: what lies under quick is drawn
// together in proportion, so that it ends at 0. It asks for 0 < quick <= usual
// <= slow and covers from 0.01 to 1; with covers 1, quick may be 0.
func PERTCovering(quick, usual, slow, covers float64) (sim.Distribution, error) {
	if err := threeValues(quick, usual, slow); err != nil {
		return nil, err
	}
	if !(covers >= 0.01 && covers <= 1) {
		return nil, fmt.Errorf("covers must be between 1 %% and 100 %%, got %v %%", covers*100)
	}
	if quick == slow {
		return fixed(usual), nil
	}
	if quick <= 0 && covers < 1 {
		return nil, fmt.Errorf("quick must be over 0 with covers: some cases are quicker still")
	}
	return &pert{quick: quick, usual: usual, slow: slow, covers: covers}, nil
}

type pert struct {
	quick, usual, slow, covers float64
	once                       sync.Once
	table                      *table
	low                        float64 // the lower end of the table
}

func (p *pert) Usual() float64 { return p.usual }

func (p *pert) Quantile(q float64) float64 {
	p.once.Do(p.build)
	v := p.table.quantile(q)
	if p.low < 0 && v < p.quick {
		return float64(p.quick*(v-p.low)) / (p.quick - p.low)
	}
	return v
}

func (p *pert) build() {
	low, high := p.extremes()
	p.low = low
	mode := min(1, max(0, (p.usual-low)/(high-low)))
	p.table = betaTable(1+float64(4*mode), 5-float64(4*mode), low, high)
}

// extremes returns the ends of the law: quick and slow when they cover all of
// it. Otherwise the place of the mode between the ends, 0..1, is sought at
// which the quantiles stand in the asked proportion to it, by the method of
// false position in its Illinois form.
func (p *pert) extremes() (low, high float64) {
	if p.covers == 1 {
		return p.quick, p.slow
	}
	tail := (1 - p.covers) / 2
	below := (p.usual - p.quick) / (p.slow - p.quick)
	var lower, upper float64
	amiss := func(mode float64) float64 {
		a, b := 1+float64(4*mode), 5-float64(4*mode)
		lower, upper = betaQuantile(a, b, tail), 1-betaQuantile(b, a, tail)
		return mode - lower - float64(below*(upper-lower))
	}
	// Amiss is negative at mode 0 and positive at 1.
	from, to := 0.0, 1.0
	atFrom, atTo := amiss(from), amiss(to)
	mode, was := from, 0.0
	for i := 0; i < 100 && atTo != atFrom; i++ {
		mode = from - float64(atFrom/(atTo-atFrom)*(to-from))
		at := amiss(mode)
		if math.Abs(at) < 1e-12 {
			break
		}
		if at < 0 {
			from, atFrom = mode, at
			if was < 0 {
				atTo /= 2
			}
		} else {
			to, atTo = mode, at
			if was > 0 {
				atFrom /= 2
			}
		}
		was = at
	}
	width := (p.slow - p.quick) / (upper - lower)
	return p.usual - float64(width*mode), p.usual + float64(width*(1-mode))
}

// Triangular returns the law whose density rises straight from quick to usual
// and falls straight to slow. It asks for quick <= usual <= slow.
func Triangular(quick, usual, slow float64) (sim.Distribution, error) {
	if err := threeValues(quick, usual, slow); err != nil {
		return nil, err
	}
	if quick == slow {
		return fixed(usual), nil
	}
	rise, fall := usual-quick, slow-usual
	return &triangular{usual: usual, whole: slow - quick, rise: rise,
		ends: [2]float64{quick, slow}, legs: [2]float64{rise, fall}}, nil
}

// triangular is kept as its two sides, the rising one first: the end each
// stands on and its length.
type triangular struct {
	usual, whole, rise float64
	ends, legs         [2]float64
}

func (t *triangular) Usual() float64 { return t.usual }

// Quantile picks the side by arithmetic: no processor could foresee a branch.
func (t *triangular) Quantile(p float64) float64 {
	from := [2]float64{float64(p * t.whole), float64((1 - p) * t.whole)}
	side := 0
	if from[0] >= t.rise {
		side = 1
	}
	return t.ends[side] + float64(float64(1-2*side)*math.Sqrt(from[side]*t.legs[side]))
}

// Uniform returns the law that is even between from and to; from <= to.
func Uniform(from, to float64) (sim.Distribution, error) {
	if err := finite("from", from, "to", to); err != nil {
		return nil, err
	}
	if from > to {
		return nil, fmt.Errorf("the first value must not be over the second, got %v and %v ms", from, to)
	}
	return uniform{from, to}, nil
}

type uniform struct{ from, to float64 }

func (u uniform) Usual() float64 { return u.from + (u.to-u.from)/2 }

func (u uniform) Quantile(p float64) float64 { return u.from + float64(p*(u.to-u.from)) }

// Exponential returns the exponential law of a mean, which must not be
// negative.
func Exponential(mean float64) (sim.Distribution, error) {
	if err := finite("mean", mean); err != nil {
		return nil, err
	}
	if mean < 0 {
		return nil, fmt.Errorf("mean must not be below 0, got %v ms", mean)
	}
	return exponentialLaw(mean), nil
}

type exponentialLaw float64

func (e exponentialLaw) Usual() float64 { return float64(float64(e) * math.Ln2) }

func (e exponentialLaw) Quantile(p float64) float64 {
	if p < 1e-5 { // -ln(1-p), where 1-p would lose digits
		return float64(e) * (p + float64(p*p*(0.5+p/3)))
	}
	return float64(e) * -portable.QuickLog(1-p)
}

// LogNormal returns the law whose logarithm is normal, by its median and its
// geometric standard deviation: 68 of 100 draws lie between median / spread
// and median x spread. It asks for median >= 0 and spread >= 1.
func LogNormal(median, spread float64) (sim.Distribution, error) {
	if err := finite("median", median, "spread", spread); err != nil {
		return nil, err
	}
	if median < 0 {
		return nil, fmt.Errorf("median must not be below 0, got %v ms", median)
	}
	if spread < 1 {
		return nil, fmt.Errorf("spread must be 1 or more (median x spread is one standard deviation up), got %v", spread)
	}
	if median == 0 || spread == 1 {
		return fixed(median), nil
	}
	return &logNormal{median: median, spread: spread}, nil
}

type logNormal struct {
	median, spread float64
	once           sync.Once
	table          *table
}

func (l *logNormal) Usual() float64 { return l.median }

func (l *logNormal) Quantile(p float64) float64 {
	l.once.Do(l.build)
	return l.table.quantile(p)
}

func (l *logNormal) build() { l.table = logNormalTable(l.median, portable.QuickLog(l.spread)) }

// Observed returns the law that gives each of some observed values with equal
// chance. Its usual value is the middle one, or the mean of the two middle
// ones. It asks for one value at least.
func Observed(values []float64) (sim.Distribution, error) {
	if len(values) == 0 {
		return nil, fmt.Errorf("observed needs one value at least")
	}
	for _, v := range values {
		if err := finite("an observed value", v); err != nil {
			return nil, err
		}
	}
	o := append(observed(nil), values...)
	slices.Sort(o)
	return o, nil
}

type observed []float64 // rising

func (o observed) Usual() float64 {
	low, high := o[(len(o)-1)/2], o[len(o)/2]
	return low + (high-low)/2
}

func (o observed) Quantile(p float64) float64 {
	i := int(math.Ceil(float64(p*float64(len(o))))) - 1
	return o[min(len(o)-1, max(0, i))]
}

func threeValues(quick, usual, slow float64) error {
	if err := finite("quick", quick, "usual", usual, "slow", slow); err != nil {
		return err
	}
	if quick > usual {
		return fmt.Errorf("quick must not be over usual, got quick %v and usual %v ms", quick, usual)
	}
	if usual > slow {
		return fmt.Errorf("usual must not be over slow, got usual %v and slow %v ms", usual, slow)
	}
	return nil
}

// greatest bounds the values of a law, in milliseconds: some 30,000 years.
const greatest = 1e15

// finite takes names and values in turn.
func finite(namesAndValues ...any) error {
	for i := 0; i < len(namesAndValues); i += 2 {
		v := namesAndValues[i+1].(float64)
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return fmt.Errorf("%s must be a finite number, got %v", namesAndValues[i], v)
		case math.Abs(v) > greatest:
			return fmt.Errorf("%s must not be over %v, got %v", namesAndValues[i], greatest, v)
		}
	}
	return nil
}

// Covering returns a law of three values whose outer ones are no extremes any
// more: a share of draws falls between them instead. It is not ok for any other
// law, nor for one whose outer values cover less already.
func Covering(d sim.Distribution, share float64) (law sim.Distribution, ok bool) {
	p, three := d.(*pert)
	if !three || p.covers <= share {
		return nil, false
	}
	law, err := PERTCovering(p.quick, p.usual, p.slow, share)
	return law, err == nil
}

// Name says which law a distribution is, as a paper would: "beta-PERT",
// "log-normal". One that is always the same is "fixed"; one not made here is
// "another law".
func Name(d sim.Distribution) string {
	switch p := d.(type) {
	case fixed:
		return "fixed"
	case *pert:
		if p.covers < 1 {
			return fmt.Sprintf("beta-PERT, %s %% between quick and slow", strconv.FormatFloat(100*p.covers, 'g', 4, 64))
		}
		return "beta-PERT"
	case *triangular:
		return "triangular"
	case uniform:
		return "uniform"
	case exponentialLaw:
		return "exponential"
	case *logNormal:
		return "log-normal"
	case observed:
		return fmt.Sprintf("%d observed values", len(p))
	}
	return "another law"
}
