package checker

import (
	"math/big"

	"warmby/sim"
)

// rows returns the weather that the drill has.
func (c *check) rows() []sim.WeatherRow {
	if c.luck.Weather < 0 || c.luck.Weather >= len(c.d.Weather) {
		return nil
	}
	return c.d.Weather[c.luck.Weather].Rows
}

// weather returns the row that holds at a moment, and whether there is one:
// each holds until the next.
func (c *check) weather(at sim.Time) (sim.WeatherRow, bool) {
	var row sim.WeatherRow
	found := false
	for _, r := range c.rows() {
		if r.At <= at {
			row, found = r, true
		}
	}
	return row, found
}

// dark reports whether the sun is under civil twilight.
func (c *check) dark(at sim.Time) bool {
	dark := false
	for _, l := range c.d.Light {
		if l.At <= at {
			dark = l.Dark
		}
	}
	return dark
}

// changes returns when conditions may change: only at weather rows and
// twilight.
func (c *check) changes() []sim.Time {
	var list []sim.Time
	for _, r := range c.rows() {
		list = append(list, r.At)
	}
	for _, l := range c.d.Light {
		list = append(list, l.At)
	}
	return list
}

// holds reports whether a condition holds; at the very value below and over
// do not.
func (c *check) holds(w sim.Condition, at sim.Time) bool {
	row, known := c.weather(at)
	switch w.Kind {
	case sim.Dark:
		return c.dark(at) && !c.d.Site.Lights
	case sim.DarkWithLights:
		return c.dark(at) && c.d.Site.Lights
	case sim.AirBelow:
		return known && row.Air < w.Value
	case sim.WindOver:
		return known && row.Wind > w.Value
	case sim.SnowDeeper:
		return c.d.Site.SnowDepth > w.Value
	}
	return false
}

// slowed is the product of the factors that hold, multiplied as exact
// decimals and then rounded once to thousandths, half away from zero.
func (c *check) slowed(task *sim.Task, at sim.Time) int64 {
	s := big.NewRat(1, 1)
	for _, w := range task.Slowed {
		if c.holds(w.When, at) {
			s.Mul(s, w.To)
		}
	}
	// floor((2 * 1000 s + 1) / 2) rounds a positive number half up
	num := new(big.Int).Mul(s.Num(), big.NewInt(2000))
	num.Add(num, s.Denom())
	num.Quo(num, new(big.Int).Mul(s.Denom(), big.NewInt(2)))
	if !num.IsInt64() {
		return 1e12
	}
	return min(max(1, num.Int64()), 1e12)
}
