package paper

// Lengths are in points of 1/72 inch, from the top left of a page.
const mm = 72 / 25.4

// Size is a kind of paper, upright.
type Size struct{ Width, Height float64 }

// The kinds of paper.
var (
	A4     = Size{210 * mm, 297 * mm}
	Letter = Size{612, 792}
)

// Sizes are the kinds of paper by the names that ask for them.
var Sizes = map[string]Size{"a4": A4, "letter": Letter}

// across is the same paper on its side.
func (s Size) across() Size { return Size{s.Height, s.Width} }

// Rect is a part of a page.
type Rect struct{ X0, Y0, X1, Y1 float64 }

func (r Rect) width() float64  { return r.X1 - r.X0 }
func (r Rect) height() float64 { return r.Y1 - r.Y0 }

// inset is the rectangle without a margin.
func (r Rect) inset(by float64) Rect { return Rect{r.X0 + by, r.Y0 + by, r.X1 - by, r.Y1 - by} }

// Sizes of type in points. On cards nothing is smaller than normal.
const (
	large  = 24.0
	normal = 14.0
	small  = 10.0 // on sheets that hang on a wall or lie on a table
)

// leading is how high a line is in shares of its type, descent how much of it lies
// under the foot of the letters, ascent how much over it.
const (
	leading = 1.18
	ascent  = 0.905
	descent = 0.212
)
