package paper

import "warmby/cmd/warmby/internal/cards"

const (
	rowHigh   = 8.3 * mm // of a blank on the timing sheet
	endWide   = 38 * mm
	usualWide = 26 * mm
	sheetType = 12.0
)

// timing lays the timing sheet out.
func (c *canvas) timing(s *cards.Timing, size Size) {
	f := c.newFlow(size, s.Title, s.Subtitle)
	f.blanks(s.Heads)
	f.calls(s)
	f.blanks(s.Blanks)
	f.stoves(s)
	f.felt(s)
	for _, note := range s.Notes {
		f.paragraph(note, sheetType, false)
	}
}

// blanks are fields with their names before them, two side by side.
func (f *flow) blanks(names []string) {
	half := f.inner.width() / 2
	for i := 0; i < len(names); i += 2 {
		high := rowHigh
		var wrapped [][]string
		for _, name := range names[i:min(i+2, len(names))] {
			lines := f.wrap(name, sheetType, false, half*0.52)
			wrapped = append(wrapped, lines)
			high = max(high, float64(len(lines))*sheetType*leading)
		}
		f.room(high + 3)
		for k, lines := range wrapped {
			x := f.inner.X0 + float64(k)*half
			f.column(x, f.y+max(0, (high-float64(len(lines))*sheetType*leading)/2), lines, sheetType, false)
			f.frame(Rect{x + half*0.54, f.y + 1, x + half - 8, f.y + high - 1}, 0.8)
		}
		f.y += high + 3
	}
	f.y += 4
}

// calls are the call-outs with blanks for when they came.
func (f *flow) calls(s *cards.Timing) {
	end := f.inner.X1 - usualWide - endWide
	f.room(sheetType*leading + rowHigh)
	f.y += sheetType * leading
	f.text(end+4, f.y-descent*sheetType, s.End, sheetType, true)
	f.text(f.inner.X1-usualWide+6, f.y-descent*sheetType, s.Usual, sheetType, true)
	f.y += 2
	for i, name := range s.Calls {
		lines := f.wrap(name, normal, true, end-f.inner.X0-6)
		high := max(rowHigh, float64(len(lines))*normal*leading+4)
		f.room(high)
		f.column(f.inner.X0, f.y+(high-float64(len(lines))*normal*leading)/2, lines, normal, true)
		f.frame(Rect{end, f.y, f.inner.X1 - usualWide, f.y + high}, 1)
		f.text(f.inner.X1-usualWide+6, f.y+high/2+0.35*sheetType, s.Usually[i], sheetType, false)
		f.line(f.inner.X0, f.y+high, end, f.y+high, 0.4)
		f.y += high
	}
	f.y += 6
}

// stoves are a row of blanks for each kind of stove.
func (f *flow) stoves(s *cards.Timing) {
	if len(s.Stoves) == 0 {
		return
	}
	wide := f.inner.width() / float64(len(s.StoveHeads)+1)
	f.room(sheetType*leading + rowHigh)
	for i, head := range s.StoveHeads {
		f.text(f.inner.X0+float64(i+1)*wide, f.y+sheetType, head, sheetType, true)
	}
	f.y += sheetType*leading + 3
	for _, stove := range s.Stoves {
		lines := f.wrap(stove, sheetType, true, wide-6)
		high := max(rowHigh, float64(len(lines))*sheetType*leading+2)
		f.room(high)
		f.column(f.inner.X0, f.y+(high-float64(len(lines))*sheetType*leading)/2, lines, sheetType, true)
		for i := range s.StoveHeads {
			x := f.inner.X0 + float64(i+1)*wide
			f.frame(Rect{x, f.y, x + wide - 6, f.y + high - 2}, 0.8)
		}
		f.y += high
	}
	f.y += 4
}

// felt is the table of how cold people felt.
func (f *flow) felt(s *cards.Timing) {
	f.room(2*sheetType*leading + float64(s.FeltRows+1)*rowHigh)
	f.paragraph(s.Felt, sheetType, false)
	wide := f.inner.width() / float64(len(s.FeltHeads))
	for i, head := range s.FeltHeads {
		f.text(f.inner.X0+float64(i)*wide, f.y+sheetType, head, sheetType, true)
	}
	f.y += sheetType*leading + 3
	for range s.FeltRows {
		for i := range s.FeltHeads {
			x := f.inner.X0 + float64(i)*wide
			f.frame(Rect{x, f.y, x + wide - 6, f.y + rowHigh - 2}, 0.8)
		}
		f.y += rowHigh
	}
	f.y += 4
}
