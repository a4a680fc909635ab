package scenarios

import (
	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// usualHumidity holds where a weather row gives none: outdoor air in winter
// is near saturation (from memory, a default only).
const usualHumidity = 0.85

// weatherForm is rows or named cases; a mapping with "at" is a row without
// brackets.
type weatherForm struct{ anyOf }

func (s weatherForm) check(r *reader, n *yaml.Node) {
	if oneRow(n) {
		s.list.check(r, n)
		return
	}
	s.anyOf.check(r, n)
}

func oneRow(n *yaml.Node) bool { return keyOf(n, "at") != nil }

func (b *builder) readWeather(n *yaml.Node) {
	if !b.ok(n) {
		return
	}
	if n.Kind == yaml.SequenceNode || oneRow(n) {
		b.d.Weather = []sim.WeatherCase{{Weight: 1, Rows: b.weatherRows(n)}}
		return
	}
	weights := 0.0
	b.pairs(n, func(k, v *yaml.Node) {
		if !b.ok(v) {
			return
		}
		c := sim.WeatherCase{Name: k.Value, Weight: b.float(v, "weight", 0), Rows: b.weatherRows(b.get(v, "rows"))}
		weights += c.Weight
		b.d.Weather = append(b.d.Weather, c)
	})
	switch {
	case len(n.Content) == 0:
		b.fail(n, "must not be empty", "give rows, or leave weather out")
	case len(b.d.Weather) > 0 && weights == 0 && len(b.list) == 0:
		b.fail(n, "no weather case has a weight over 0 %", "give one case a weight at least, such as \"100 %\"")
	}
}

func (b *builder) weatherRows(n *yaml.Node) []sim.WeatherRow {
	var rows []sim.WeatherRow
	last := sim.Time(-1)
	for _, row := range b.each(n) {
		at := b.get(row, "at")
		if at == nil || b.values[at] == nil {
			last = -1
			continue
		}
		r := sim.WeatherRow{At: b.ms(row, "at"), Air: b.float(row, "air", 0), Wind: b.float(row, "wind", 0),
			Humidity: b.float(row, "humidity", usualHumidity)}
		if n := b.get(row, "from"); n != nil && b.values[n] != nil {
			from := b.float(row, "from", 0)
			r.From = &from
		}
		switch {
		case len(rows) == 0 && r.At != 0 && row == firstOf(n):
			b.failGot(at, "the first row must be at 0 min", "each row holds until the next")
		case last >= 0 && r.At <= last:
			b.failGot(at, "weather rows must rise in time", "put the rows in order, no two at the same time")
		}
		last = r.At
		rows = append(rows, r)
	}
	return rows
}

// firstOf returns the first entry of a list, or a value that stands for one.
func firstOf(n *yaml.Node) *yaml.Node {
	if n.Kind == yaml.SequenceNode {
		return n.Content[0]
	}
	return n
}
