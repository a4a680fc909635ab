package sim

import (
	"fmt"
	"math/big"
	"math/bits"
	"sort"
	"strconv"
)

// Step is a stretch of time over which everything outside stays the same; it
// holds from At until the next step.
type Step struct {
	At       Time
	Weather  bool    // whether air, wind and humidity are known
	Air      float64 // degrees C
	Wind     float64 // m/s at 10 m
	Humidity float64 // 0..1
	Dark     bool    // the sun is under civil twilight
}

// Steps returns what it is like outside under a weather case, from 0 on, a
// step for each weather row and each beginning or end of darkness.
func (d *Drill) Steps(weather int) []Step {
	var rows []WeatherRow
	if weather < len(d.Weather) {
		rows = d.Weather[weather].Rows
	}
	var at []Time
	at = append(at, 0)
	for _, r := range rows {
		at = append(at, r.At)
	}
	for _, l := range d.Light {
		at = append(at, l.At)
	}
	sort.Slice(at, func(i, j int) bool { return at[i] < at[j] })
	var steps []Step
	row, light := -1, -1
	for i, t := range at {
		if t < 0 || i > 0 && t == at[i-1] {
			continue
		}
		for row+1 < len(rows) && rows[row+1].At <= t {
			row++
		}
		for light+1 < len(d.Light) && d.Light[light+1].At <= t {
			light++
		}
		s := Step{At: t}
		if row >= 0 {
			s.Weather, s.Air, s.Wind, s.Humidity = true, rows[row].Air, rows[row].Wind, rows[row].Humidity
		}
		if light >= 0 {
			s.Dark = d.Light[light].Dark
		}
		steps = append(steps, s)
	}
	return steps
}

// StepAt returns the index of the step that holds at t.
func StepAt(steps []Step, t Time) int {
	return max(0, sort.Search(len(steps), func(i int) bool { return steps[i].At > t })-1)
}

// Condition is something about the world outside that slows work.
type Condition struct {
	Kind  ConditionKind
	Value float64 // degrees C, m/s or m, by kind
}

// ConditionKind is a kind of condition.
type ConditionKind int

// The kinds of condition. At the very value Below and Over do not hold.
const (
	Dark           ConditionKind = iota // dark, and the team has no lights
	DarkWithLights                      // dark, and it has
	AirBelow
	WindOver
	SnowDeeper
)

// Holds reports whether the condition holds at a site during a step.
func (c Condition) Holds(site *Site, s Step) bool {
	switch c.Kind {
	case Dark:
		return s.Dark && !site.Lights
	case DarkWithLights:
		return s.Dark && site.Lights
	case AirBelow:
		return s.Weather && s.Air < c.Value
	case WindOver:
		return s.Weather && s.Wind > c.Value
	case SnowDeeper:
		return site.SnowDepth > c.Value
	}
	panic("sim: unknown condition " + strconv.Itoa(int(c.Kind)))
}

// String returns the condition in words, with its unit.
func (c Condition) String() string {
	v := strconv.FormatFloat(c.Value, 'g', 6, 64)
	switch c.Kind {
	case Dark:
		return "dark"
	case DarkWithLights:
		return "dark with lights"
	case AirBelow:
		return "air below " + v + " C"
	case WindOver:
		return "wind over " + v + " m/s"
	case SnowDeeper:
		return "snow deeper than " + strconv.FormatFloat(c.Value*100, 'g', 6, 64) + " cm"
	}
	return fmt.Sprintf("condition %d", int(c.Kind))
}

// Slowed1000 returns the product of the factors that hold on a task during a
// step, in thousandths (1000: not slowed): the factors multiply exactly, the
// product is rounded once, half away from zero, and never below 1.
func (t *Task) Slowed1000(site *Site, s Step) int64 {
	above, below, holds := uint64(1000), uint64(1), false
	for _, w := range t.Slowed {
		if !w.When.Holds(site, s) {
			continue
		}
		holds = true
		const most = 1 << 61 // with which the sum below fits
		num, den := w.To.Num(), w.To.Denom()
		if !num.IsUint64() || !den.IsUint64() {
			return t.slowed1000(site, s)
		}
		hi, more := bits.Mul64(above, num.Uint64())
		lo, less := bits.Mul64(below, den.Uint64())
		if hi|lo != 0 || more > most || less > most {
			return t.slowed1000(site, s)
		}
		above, below = more, less
	}
	if !holds {
		return 1000
	}
	return max(1, int64(min(1e12, (2*above+below)/(2*below))))
}

// slowed1000 is Slowed1000 of factors whose product does not fit 64 bits.
func (t *Task) slowed1000(site *Site, s Step) int64 {
	product := big.NewRat(1000, 1)
	for _, w := range t.Slowed {
		if w.When.Holds(site, s) {
			product.Mul(product, w.To)
		}
	}
	product.Add(product, big.NewRat(1, 2))
	n := new(big.Int).Quo(product.Num(), product.Denom())
	if !n.IsInt64() || n.Int64() > 1e12 {
		return 1e12
	}
	return max(1, n.Int64())
}

// SameConditions reports whether the same factors hold on a task during two
// steps.
func (t *Task) SameConditions(site *Site, a, b Step) bool {
	for _, w := range t.Slowed {
		if w.When.Holds(site, a) != w.When.Holds(site, b) {
			return false
		}
	}
	return true
}
