package draw

import "math"

// table is an inverse distribution function without a closed form, kept as
// cubics. Each half of the chances, counted from its own end, is cut into
// octaves, from 2^-(k+1) to 2^-k, and each octave into eight cells of one
// width, so that a tail is cut as finely in proportion as the middle. The
// cell of a chance is read off the bits of its floating-point number.
type table struct {
	lower, upper tail
}

// tail is one half of a table: the value as a function of q, the chance
// beyond it.
type tail struct {
	cells []cell  // cells[i] begins at chance(i); the last is a point
	end   float64 // the value towards q = 0
}

// cell is a cubic in the place within it, 0..1.
type cell struct{ c0, c1, c2, c3 float64 }

const (
	octaves      = 35
	cellBits     = 3
	nodes        = octaves<<cellBits + 1
	leastChance  = 1.0 / (1 << (octaves + 1)) // of the first node
	leastBits    = (1023 - octaves - 1) << cellBits
	mantissaBits = 52
)

// chance returns the chance at node i, 0 <= i < nodes: leastChance at 0, 1/2
// at the last.
func chance(i int) float64 {
	return math.Float64frombits(uint64(i+leastBits) << (mantissaBits - cellBits))
}

// quantile returns the value below which a draw falls with chance p.
func (t *table) quantile(p float64) float64 {
	if p < 0.5 {
		c, at, ok := t.lower.find(p)
		if !ok {
			return t.lower.beyond(p)
		}
		return min(c[0].at(at), c[1].c0) // rounding must not turn the curve
	}
	c, at, ok := t.upper.find(1 - p) // exact
	if !ok {
		return t.upper.beyond(1 - p)
	}
	return max(c[0].at(at), c[1].c0)
}

// find returns the cell of a chance with the one after it, and the place
// within it.
func (t *tail) find(q float64) (c []cell, at float64, ok bool) {
	bits := math.Float64bits(q)
	i := int(bits>>(mantissaBits-cellBits)) - leastBits
	if uint(i) >= uint(len(t.cells)-1) {
		return nil, 0, false
	}
	// The bits under those of the cell make a number from 1 to 2.
	at = math.Float64frombits(bits<<cellBits&(1<<mantissaBits-1)|1023<<mantissaBits) - 1
	return t.cells[i : i+2], at, true
}

// beyond returns the value for a chance that no cell holds: one half, or one
// of less than leastChance, which comes once in 69 thousand million draws:
// there the value runs straight to the end.
func (t *tail) beyond(q float64) float64 {
	if !(q < leastChance) {
		return t.cells[len(t.cells)-1].c0
	}
	return t.end + float64((t.cells[0].c0-t.end)*(max(0, q)/leastChance))
}

func (c *cell) at(t float64) float64 {
	return float64((float64((float64(c.c3*t)+c.c2)*t)+c.c1)*t) + c.c0
}

// newTail makes a tail of the values at the nodes and their slopes by q.
func newTail(values, slopes *[nodes]float64, end float64) tail {
	t := tail{make([]cell, nodes), end}
	for i := range nodes - 1 {
		width := chance(i+1) - chance(i)
		rise := values[i+1] - values[i]
		s0, s1 := float64(width*slopes[i]), float64(width*slopes[i+1])
		t.cells[i] = cell{values[i], s0, float64(3*rise) - 2*s0 - s1, s0 + s1 - 2*rise}
	}
	t.cells[nodes-1].c0 = values[nodes-1]
	return t
}
