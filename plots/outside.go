package plots

import (
	"strconv"
	"strings"

	"warmby/sim"
)

// spell is a stretch of time with the same weather or light.
type spell struct {
	from, to sim.Time
	step     sim.Step
}

// spells joins the steps of a drill that are the same, up to the end of the
// ruler.
func spells(steps []sim.Step, end sim.Time, same func(a, b sim.Step) bool) []spell {
	var out []spell
	for _, st := range steps {
		if st.At >= end {
			break
		}
		if n := len(out); n > 0 && same(out[n-1].step, st) {
			continue
		} else if n > 0 {
			out[n-1].to = st.At
		}
		out = append(out, spell{from: st.At, to: end, step: st})
	}
	return out
}

func sameLight(a, b sim.Step) bool { return a.Dark == b.Dark }

func sameWeather(a, b sim.Step) bool {
	return a.Weather == b.Weather && a.Air == b.Air && a.Wind == b.Wind
}

// windWords are the classes of the Beaufort scale by the lowest wind of each
// in m/s at 10 m (as tabled by the Central Weather Bureau, Taipei), and how
// densely each is shaded.
var windWords = []struct {
	from  float64
	word  string
	shade int
}{
	{0, "calm", 0}, {0.3, "light air", 0}, {1.6, "light breeze", 0}, {3.4, "gentle breeze", 1},
	{5.5, "moderate breeze", 2}, {8.0, "fresh breeze", 3}, {10.8, "strong breeze", 4}, {13.9, "near gale", 5},
	{17.2, "gale", 6}, {20.8, "strong gale", 7}, {24.5, "storm", 7}, {28.5, "violent storm", 7}, {32.7, "hurricane force", 7},
}

func windClass(wind float64) (word string, shade int) {
	for _, w := range windWords {
		if wind >= w.from {
			word, shade = w.word, w.shade
		}
	}
	return word, shade
}

// number writes a quantity for people, with a true minus sign.
func number(v float64) string {
	return minus(strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0"))
}

// weatherTexts are ways to say what the weather is, longest first.
func weatherTexts(st sim.Step) []string {
	if !st.Weather {
		return []string{"weather unknown", "unknown"}
	}
	word, _ := windClass(st.Wind)
	air, wind := number(st.Air), number(st.Wind)
	return []string{
		air + " °C, wind " + wind + " m/s, " + word,
		air + " °C, " + wind + " m/s, " + word,
		air + " °C, " + wind + " m/s",
	}
}

var stripStyle = style{size: 6.8, ink: black}

const stripHeight = 10.5

// outside draws the strips of light and weather and returns their height;
// what lies behind the panels is drawn by backdrop.
func (a axis) outside(s *sheet, steps []sim.Step, lit, weather bool, top float64) float64 {
	y := top
	if lit {
		a.caption(s, "light", y+7.8)
		for _, sp := range spells(steps, a.length, sameLight) {
			texts, fill := []string{"light"}, paper
			if sp.step.Dark {
				texts, fill = []string{"dark"}, night
				if sp.from > 0 && !a.arrival.IsZero() {
					texts = []string{"dark from " + a.clock(sp.from), "dark"}
				}
			}
			a.strip(s, sp, fill, texts, texts[0], y)
		}
		y += stripHeight + 1.5
	}
	if weather {
		a.caption(s, "outside", y+7.8)
		for _, sp := range spells(steps, a.length, sameWeather) {
			texts := weatherTexts(sp.step)
			a.strip(s, sp, paper, texts, texts[0], y)
		}
		y += stripHeight + 1.5
		a.caption(s, "bare skin", y+7.8)
		for _, sp := range spells(steps, a.length, sameWeather) {
			texts := skinTexts(sp.step)
			a.strip(s, sp, paper, texts, "bare skin: "+texts[0], y)
		}
		y += stripHeight + 1.5
	}
	return y - top
}

// strip draws one spell on a strip with the longest text that fits; failing
// all, the number of a note, and nothing on a spell too short for that.
func (a axis) strip(s *sheet, sp spell, fill ink, texts []string, note string, top float64) {
	r := rect{a.x(sp.from), top, a.x(sp.to), top + stripHeight}
	s.fill(behind, r, fill)
	s.frame(grid, r, 0.4, soft)
	for _, text := range texts {
		if l, ok := s.fit(text, r.width()-4, stripHeight, stripStyle); ok {
			s.set(l, r, 0)
			return
		}
	}
	if s.tagWidth(99) <= r.width() {
		s.tag(s.notes.number(note), (r.x0+r.x1)/2, top+1.5)
	}
}

// backdrop draws dark and wind behind the rows from top to windBottom, and
// the dark further down to bottom.
func (a axis) backdrop(s *sheet, steps []sim.Step, top, windBottom, bottom float64) {
	for _, sp := range spells(steps, a.length, sameLight) {
		if sp.step.Dark {
			s.fill(behind, rect{a.x(sp.from), top, a.x(sp.to), bottom}, night)
		}
	}
	for _, sp := range spells(steps, a.length, sameWeather) {
		if sp.step.Weather {
			_, shade := windClass(sp.step.Wind)
			s.wind(behind, rect{a.x(sp.from), top, a.x(sp.to), windBottom}, shade)
		}
	}
}

// wind shades a rectangle with level strokes, the longer and closer the
// stronger it blows; shade 0 leaves it as it is.
func (s *sheet) wind(l layer, r rect, shade int) {
	if shade == 0 {
		return
	}
	long := 2.5 + float64(1.5*float64(shade))
	gap := 26 - float64(2.6*float64(shade))
	apart := 8 - float64(0.6*float64(shade))
	var lines [][]point
	for i, y := 0, r.y0+apart/2; y < r.y1; i, y = i+1, y+apart {
		x := r.x0 + float64(i*7%5)*(long+gap)/5
		if x < r.x1 {
			lines = append(lines, []point{{x, y}, {r.x1, y}})
		}
	}
	s.stroke(l, path{lines: lines, width: 0.5, dash: []float64{long, gap}}, breath)
}
