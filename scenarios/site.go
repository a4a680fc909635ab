package scenarios

import (
	"time"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
	"warmby/sim/draw"
)

func (b *builder) readSite(n *yaml.Node) {
	s := &b.d.Site
	if !b.ok(n) {
		return
	}
	if b.absent(n, "latitude") != b.absent(n, "longitude") {
		b.fail(n, "latitude and longitude go together", "give both or neither")
	}
	if b.value(n, "latitude") != nil && b.value(n, "longitude") != nil {
		s.Latitude, s.Longitude, s.Placed = b.float(n, "latitude", 0), b.float(n, "longitude", 0), true
	}
	s.Elevation = b.float(n, "elevation", 0)
	s.Lights = b.text(n, "lights") == "headlamps"
	if snow := b.get(n, "snow"); snow != nil {
		s.SnowDepth = b.float(snow, "depth", 0)
		s.SnowDensity = b.float(snow, "density", 0)
		s.SnowTemperature = b.float(snow, "temperature", 0)
	}
	if t, err := parseMoment(b.text(n, "arrival")); err == nil {
		_, offset := t.Zone()
		s.Arrival = t.In(time.FixedZone(t.Format("-07:00"), offset))
	}
	if s.Placed && !s.Arrival.IsZero() {
		b.d.Light = b.doc.known.light(s)
	}
}

// lightKnown reports whether it is known when it grows dark.
func (b *builder) lightKnown() bool { return len(b.d.Light) > 0 }

// firstDark returns the first moment at which the sun is under civil
// twilight, Never when there is none.
func firstDark(light []sim.Light) sim.Time {
	for _, l := range light {
		if l.Dark {
			return max(0, l.At)
		}
	}
	return sim.Never
}

func (b *builder) readSpots(n *yaml.Node) {
	b.d.Spots = make([]sim.Spot, len(b.spots.list))
	for i, name := range b.spots.list {
		b.d.Spots[i] = sim.Spot{Name: name, In: -1}
	}
	b.pairs(n, func(k, v *yaml.Node) {
		if !b.ok(v) {
			return
		}
		s := &b.d.Spots[b.spots.index[k.Value]]
		s.Walk = b.ms(v, "walk")
		s.Bearing = b.float(v, "bearing", 0)
		s.Sheltered = b.float(v, "sheltered", 0)
		if in := b.get(v, "in"); in != nil {
			if i, ok := b.find(b.shelters, in); ok {
				s.In = i
			}
		}
	})
}

// dayOf reads how much work, or a person's pace, varies from day to day:
// lognormal, median 1, sigma ln(1 + day); nil for not at all.
func (b *builder) dayOf(v *yaml.Node) sim.Distribution {
	day := b.value(v, "day")
	if day == nil || day.Sign() == 0 {
		return nil
	}
	d, err := draw.LogNormal(1, 1+float(day))
	if err != nil {
		b.fail(b.get(v, "day"), err.Error(), "such as \"15 %\"")
		return nil
	}
	return d
}
