package plots

import (
	"strconv"
	"strings"
)

// wrap breaks a text into lines no wider than wide, at spaces, and inside a
// word only when the word alone is wider.
func (s *sheet) wrap(text string, st style, wide float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && s.width(line+" "+word, st) <= wide {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for s.width(word, st) > wide {
			head := s.head(word, st, wide)
			lines = append(lines, head)
			word = word[len(head):]
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// head returns as much of a word as fits, one letter at least.
func (s *sheet) head(word string, st style, wide float64) string {
	end := 0
	for i := range word {
		if i > 0 && s.width(word[:i], st) > wide {
			break
		}
		end = i
	}
	if end == 0 {
		for i := range word {
			if i > 0 {
				return word[:i]
			}
		}
		return word
	}
	return word[:end]
}

// lettering is a text as it is set: its lines, top first, all in one style.
type lettering struct {
	lines []string
	set   style
}

func (l lettering) height() float64 { return float64(len(l.lines)) * leading * l.set.size }

// fit sets a text in a space without cutting or breaking a word: in the first
// of some styles in which it fits, on one line or, failing that, on several.
func (s *sheet) fit(text string, wide, high float64, styles ...style) (lettering, bool) {
	if text == "" {
		return lettering{}, false
	}
	for _, st := range styles {
		room := int(high / (leading * st.size))
		if room < 1 {
			continue
		}
		if s.width(text, st) <= wide {
			return lettering{[]string{text}, st}, true
		}
		longest := 0.0
		for _, word := range strings.Fields(text) {
			longest = max(longest, s.width(word, st))
		}
		if longest > wide {
			continue
		}
		if lines := s.wrap(text, st, wide); len(lines) <= room {
			return lettering{lines, st}, true
		}
	}
	return lettering{}, false
}

// set writes lettering in the middle of a rectangle, on a plate of the ink
// given so that hatching does not run through it (0: no plate).
func (s *sheet) set(l lettering, r rect, plate ink) {
	y := (r.y0+r.y1-l.height())/2 + float64(0.12*l.set.size)
	for _, line := range l.lines {
		w := s.width(line, l.set)
		x := (r.x0 + r.x1 - w) / 2
		if plate != 0 {
			s.fill(onBars, rect{max(x-1.5, r.x0), y - 0.3, min(x+w+1.5, r.x1), y + float64(leading*l.set.size) - 0.3}, plate)
		}
		s.text(x, y+float64(0.76*l.set.size), line, l.set)
		y += float64(leading * l.set.size)
	}
}

// notes is the numbered list under a picture: what did not fit where it
// belongs.
type notes struct {
	texts []string
	known map[string]int
}

// number returns the number under which a text stands in the list.
func (n *notes) number(text string) int {
	if i, ok := n.known[text]; ok {
		return i
	}
	if n.known == nil {
		n.known = map[string]int{}
	}
	n.texts = append(n.texts, text)
	n.known[text] = len(n.texts)
	return len(n.texts)
}

// Numbers stand on small white tags.
var tagStyle = style{size: 6.4, bold: true, ink: black}

const tagHeight = 7.4

// tagWidth returns the width of a tag with a number.
func (s *sheet) tagWidth(number int) float64 {
	return s.width(strconv.Itoa(number), tagStyle) + 2.6
}

// tag draws a number on its tag, the middle of its top at (x, top).
func (s *sheet) tag(number int, x, top float64) {
	w := s.tagWidth(number)
	r := rect{x - w/2, top, x + w/2, top + tagHeight}
	s.fill(onBars, r, paper)
	s.frame(onBars, r, 0.4, soft)
	s.text(r.x0+1.3, r.y1-1.5, strconv.Itoa(number), tagStyle)
}
