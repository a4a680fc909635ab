package stats

import "math"

// Fourfold counts runs by whether something is so of a, and whether it is of b,
// both under the same luck. The zero value is empty.
type Fourfold struct {
	Both, OnlyA, OnlyB, Neither int64
}

// Add counts one run.
func (f *Fourfold) Add(a, b bool) {
	switch {
	case a && b:
		f.Both++
	case a:
		f.OnlyA++
	case b:
		f.OnlyB++
	default:
		f.Neither++
	}
}

// Runs returns how many runs were counted.
func (f Fourfold) Runs() int64 { return f.Both + f.OnlyA + f.OnlyB + f.Neither }

// phi returns how far what is so of a and of b go together, from -1 to 1; 0
// when either is so in every run, or in none. Where they go together it is taken
// as if half a run less spoke for it (Newcombe's correction) if asked for.
func (f Fourfold) phi(corrected bool) float64 {
	a, b, n := float64(f.Both+f.OnlyA), float64(f.Both+f.OnlyB), float64(f.Runs())
	below := a * (n - a) * b * (n - b)
	if below == 0 {
		return 0
	}
	above := float64(f.Both)*float64(f.Neither) - float64(f.OnlyA)*float64(f.OnlyB)
	if corrected && above > 0 {
		above = max(0, above-n/2)
	}
	return above / math.Sqrt(below)
}

// ShareGap is in how much larger a share of runs something is so of a than of b,
// with its interval, all -1 to 1.
type ShareGap struct {
	Value, Low, High float64
	Runs             int64
	Warning          string // about few runs; may be empty
}

// Turned returns the gap the other way round.
func (g ShareGap) Turned() ShareGap {
	g.Value, g.Low, g.High = -g.Value, -g.High, -g.Low
	return g
}

// Gap returns the difference of the two shares with its 95 % interval: Wilson's
// intervals of both, put together by squaring and adding, with what the two have
// in common taken off (R. G. Newcombe, Statist. Med. 17 (1998) 2635-2650, method
// 10). There must be a run.
func (f Fourfold) Gap() ShareGap { return f.GapAt(Level) }

// GapAt is Gap with another level.
func (f Fourfold) GapAt(level float64) ShareGap {
	n := f.Runs()
	a, b := f.Both+f.OnlyA, f.Both+f.OnlyB
	lowA, highA := Wilson(a, n, level)
	lowB, highB := Wilson(b, n, level)
	shareA, shareB := float64(a)/float64(n), float64(b)/float64(n)
	g := ShareGap{Value: float64(f.OnlyA-f.OnlyB) / float64(n), Runs: n, Warning: fewRuns(n)}
	phi := f.phi(true)
	g.Low = settled(g.Value - together(shareA-lowA, highB-shareB, phi))
	g.High = settled(g.Value + together(highA-shareA, shareB-lowB, phi))
	return g
}

// together returns how far a difference may be off, of which the one side may
// be off by x and the other by y, with a correlation between them.
func together(x, y, correlation float64) float64 {
	return math.Sqrt(max(0, float64(x*x)+float64(y*y)-float64(2*correlation*x*y)))
}
