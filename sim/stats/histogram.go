package stats

import "warmby/sim"

// Histogram counts moments by whole seconds, so that a batch of any size takes
// little memory and parts of it merge exactly. The zero value is empty. Its
// quantiles are right to half a second.
//
// The fields are exported to be written to a file and read again; use Add.
type Histogram struct {
	Counts []int64 // by second since arrival
	Never  int64
	Runs   int64
}

// Add counts one moment, rounded to the nearest second, half a second up. A
// moment before arrival is misuse.
func (h *Histogram) Add(at sim.Time) {
	h.Runs++
	if at == sim.Never {
		h.Never++
		return
	}
	if at < 0 {
		panic("stats: histogram of a moment before arrival")
	}
	second := int((at + sim.Second/2) / sim.Second)
	h.reach(second + 1)
	h.Counts[second]++
}

// Merge adds all that another histogram holds.
func (h *Histogram) Merge(o *Histogram) {
	h.reach(len(o.Counts))
	for i, n := range o.Counts {
		h.Counts[i] += n
	}
	h.Never += o.Never
	h.Runs += o.Runs
}

// reach makes room for n seconds.
func (h *Histogram) reach(n int) {
	if n > len(h.Counts) {
		h.Counts = append(h.Counts, make([]int64, n-len(h.Counts))...)
	}
}

// Len returns how many moments were added.
func (h *Histogram) Len() int64 { return h.Runs }

// At returns the moment of a rank, counted from 1, in whole seconds.
func (h *Histogram) At(rank int64) sim.Time {
	for second, n := range h.Counts {
		if rank -= n; rank <= 0 {
			return sim.Time(second) * sim.Second
		}
	}
	return sim.Never
}
