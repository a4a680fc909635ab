package plots

import (
	"math"
	"strconv"
	"strings"
)

// scale is an axis of numbers, level or upright.
type scale struct {
	low, high, step float64 // low < high; step over 0
	from, to        float64 // where low and high stand
}

// at returns where a value stands; values off the scale stand at its ends.
func (c scale) at(value float64) float64 {
	value = min(max(value, c.low), c.high)
	return c.from + (c.to-c.from)*(value-c.low)/(c.high-c.low)
}

// holds reports whether a value lies on the scale.
func (c scale) holds(value float64) bool { return value >= c.low && value <= c.high }

// ticks returns the round values on the scale.
func (c scale) ticks() []float64 {
	var out []float64
	first := math.Ceil(c.low/c.step - 1e-9)
	for k := 0.0; (first+k)*c.step <= c.high+c.step*1e-9 && k < 100; k++ {
		out = append(out, (first+k)*c.step)
	}
	return out
}

// text writes a round value with the decimals that the step has.
func (c scale) text(value float64) string {
	decimals := 0
	for step := c.step; decimals < 12 && math.Abs(step-math.Round(step)) > 1e-6*step; decimals++ {
		step = float64(step * 10)
	}
	return minus(strconv.FormatFloat(value, 'f', decimals, 64))
}

// minus gives a number a true minus sign, and nought none.
func minus(text string) string {
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return strings.Replace(text, "-", "\u2212", 1)
}

// roundStep returns the least step of 1, 2, 2.5 or 5 times a power of ten that
// is no less than one given; 1 for none.
func roundStep(least float64) float64 {
	if !(least > 0) || math.IsInf(least, 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, m := range []float64{1, 2, 2.5, 5} {
		if m*power >= least*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// scaleOver returns a scale that holds some values with a little room, with no
// more than so many steps. What is not finite does not count; without any
// value it runs from 0 to 1.
func scaleOver(values []float64, most int, from, to float64) scale {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			low, high = min(low, v), max(high, v)
		}
	}
	switch {
	case low > high:
		low, high = 0, 1
	case high-low <= 1e-9*max(math.Abs(low), math.Abs(high)):
		room := max(math.Abs(low)*0.1, 1)
		low, high = low-room, high+room
	}
	room := float64((high - low) * 0.04)
	return scale{low - room, high + room, roundStep((high - low) / float64(most)), from, to}
}
