package stats

import "math"

// Within is how one of several stands against the best of them.
type Within struct {
	MayBe  bool    // whether it may be the best itself
	AtMost float64 // by how much it is behind the best at most; 0 when it is the only one that may be
}

// WithinLevel returns the level of the intervals whose one end is each of the
// bounds that [WithinOfBest] asks for, of so many that are held against each
// other.
func WithinLevel(n int) float64 { return 1 - 2*(1-Level)/float64(max(1, n-1)) }

// WithinOfBest holds several against the best of them, whichever that is. Behind
// returns by how much i is behind j at most, an end of an interval of
// [WithinLevel]; below 0 it is ahead. With 95 % the best is one of those that may be, and all
// others are behind it by no more than is said, so that it holds of one that was
// chosen for looking best as well. These are J. C. Hsu's constrained multiple
// comparisons with the best (Ann. Statist. 12 (1984) 1136-1144), with paired
// differences and Bonferroni's inequality, as runs under the same luck need it
// (B. L. Nelson and F. J. Matejcik, Management Science 41 (1995) 1935-1945).
func WithinOfBest(n int, behind func(i, j int) float64) []Within {
	out, bounds := make([]Within, n), make([][]float64, n)
	for i := range out {
		out[i].MayBe, bounds[i] = true, make([]float64, n)
		for j := range n {
			if j != i {
				bounds[i][j] = behind(i, j)
			}
		}
	}
	for i := range out {
		for j := range out {
			out[i].MayBe = out[i].MayBe && bounds[j][i] >= 0
		}
	}
	for i := range out {
		for j := range out {
			if out[j].MayBe {
				out[i].AtMost = max(out[i].AtMost, bounds[i][j])
			}
		}
	}
	return out
}

// Behind returns by how much a is later than b at most on average, in
// milliseconds: the upper end of an interval of a level; infinite when either is not always
// reached, or for a single run.
func (p *Paired) Behind(level float64) float64 {
	d := p.differenceAt(level).Mean
	switch {
	case !d.OK():
		return math.Inf(1)
	case p.ASooner == 0 && p.BSooner == 0:
		return 0
	}
	return d.High
}

// Chosen returns the level of an interval that is to hold although it is of the
// one that looked best of n.
func Chosen(n int) float64 { return 1 - (1-Level)/float64(max(1, n)) }
