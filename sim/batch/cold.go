package batch

import (
	"encoding/binary"
	"math"

	"warmby/sim"
	"warmby/sim/cold"
)

// Chill is the worst of one person's account of cold in one run.
type Chill struct {
	// Peak is the most heat lost at any moment, in thousandths of Wh/m2; below
	// 0 when there is no account, or the run came to a stop.
	Peak     int64
	PeakAt   sim.Time // when; Never when there is no account
	PassedAt sim.Time // when the debt reached [cold.HeatLimit]; Never when it did not
}

// noChill stands for an account that is not kept.
var noChill = Chill{Peak: -1, PeakAt: sim.Never, PassedAt: sim.Never}

func chillOf(p cold.Peak) Chill {
	if !p.Known {
		return noChill
	}
	return Chill{Peak: int64(math.Round(1000 * p.Debt)), PeakAt: p.At, PassedAt: p.PassedAt}
}

// chill appends the account of each person in the run whose timeline was made.
func (pl *player) chill(to []Chill, order int) []Chill {
	pl.peaks = pl.meters[order].Peaks(&pl.timeline, pl.peaks[:0])
	for _, p := range pl.peaks {
		to = append(to, chillOf(p))
	}
	return to
}

// appendChills writes accounts: how many, and of each the peak and the moments,
// one more than they are, 0 where there is none.
func appendChills(b []byte, chills []Chill) []byte {
	b = binary.AppendUvarint(b, uint64(len(chills)))
	for _, c := range chills {
		b = binary.AppendUvarint(b, uint64(c.Peak+1))
		b = appendTime(b, c.PeakAt)
		b = appendTime(b, c.PassedAt)
	}
	return b
}

func (r *numbers) chills() []Chill {
	n := r.count()
	if n > len(r.b)/3 {
		r.bad = true
		return nil
	}
	if n == 0 {
		return nil
	}
	chills := make([]Chill, n)
	for i := range chills {
		chills[i] = Chill{int64(r.count()) - 1, r.time(), r.time()}
	}
	return chills
}
