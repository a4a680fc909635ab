package cards

import (
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
)

// sketch is the camp by bearing and walk.
func (t teller) sketch() *Sketch {
	s := &Sketch{Title: t.Say("sketch title", "title", t.Title), North: t.Say("north"), From: t.Camp.Wind.From}
	farthest := sim.Time(0)
	var down []string
	for _, spot := range t.Camp.Spots {
		if spot.Walk == 0 {
			s.Centre = strings.Join(slices.DeleteFunc(slices.Clone(spot.Names), func(n string) bool { return n == "" }), ", ")
			continue
		}
		farthest = max(farthest, spot.Walk)
		name := strings.Join(spot.Names, ", ")
		s.Spots = append(s.Spots, SketchSpot{
			Text:    t.Say("spot", "name", name, "bearing", report.Number(int(spot.Bearing+0.5)), "walk", report.Length(spot.Walk)),
			Bearing: spot.Bearing, Walk: spot.Walk.Minutes(), Downwind: spot.Downwind,
		})
		if spot.Downwind {
			down = append(down, name)
		}
	}
	s.Rings = t.rings(farthest)
	s.Wind = t.wind()
	if len(down) > 0 {
		s.Note = append(s.Note, t.Say("downwind", "names", strings.Join(down, ", ")))
	}
	s.Note = append(s.Note, t.Say("sketch note"))
	return s
}

func (t teller) wind() string {
	w := t.Camp.Wind
	speed := report.Quantity{Value: w.Speed, Unit: "m/s"}
	switch {
	case !w.Known:
		return t.Say("wind not known")
	case w.From == nil:
		return t.Say("wind from where", "wind", speed)
	}
	return t.Say("wind", "wind", speed, "bearing", report.Number(int(*w.From+0.5)))
}

// rings are round walks up to the farthest spot, four at most.
func (t teller) rings(farthest sim.Time) (list []Ring) {
	step := sim.Minute
	for _, minutes := range []sim.Time{1, 2, 5, 10, 20, 30, 60, 120, 360} {
		if step = minutes * sim.Minute; farthest <= 4*step {
			break
		}
	}
	for walk := step; walk < farthest+step && len(list) < 4; walk += step {
		list = append(list, Ring{walk.Minutes(), report.Length(walk).Write(report.People)})
	}
	return list
}
