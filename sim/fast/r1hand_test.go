package fast_test

import (
	"math"
	"math/bits"
	"testing"

	"warmby/sim"
)

// handR1 is model R1 written out by hand for speed and for nothing else: what
// an engine that plays any drill is to be measured by, on whatever machine.
// Tasks are named by their places in the priority list.
type handR1 struct {
	tasks       [28]handTask
	rates       [5]int64
	pending     [28]uint8
	ready       uint32
	tools       uint64 // in lanes of 16 bits
	milestones  [2]int
	placeOfTask [28]int
}

type handTask struct {
	eligible, needs uint64
	low, high       int
	next            []uint8
	lagged          []handLag
	min, max, share float64 // share of the rising side
	rising, falling float64
	index           int
}

type handLag struct {
	place uint8
	lag   int64
}

func newHandR1(t testing.TB) *handR1 {
	m := readR1(t)
	k := &handR1{}
	for place, i := range m.Priority {
		k.placeOfTask[i] = place
	}
	k.milestones = [2]int{k.placeOfTask[m.MilestoneA], k.placeOfTask[m.MilestoneB]}
	for n, count := range m.Tools {
		k.tools |= uint64(count) << (16 * n)
	}
	skilled := map[string]uint64{"none": 1<<m.Workers - 1}
	for _, i := range m.Stove {
		skilled["stove"] |= 1 << i
	}
	for _, i := range m.Lead {
		skilled["lead"] |= 1 << i
	}
	for n := 1; n < len(k.rates); n++ {
		k.rates[n] = sim.Rate(n, 0.85, 1000*int64(n), 1000)
	}
	for place, i := range m.Priority {
		from, to := m.Tasks[i], &k.tasks[place]
		width := from.Max - from.Min
		to.eligible, to.low, to.high, to.index = skilled[from.Skill], from.Cmin, from.Cmax, i
		to.min, to.max, to.share = from.Min, from.Max, (from.Mode-from.Min)/width
		to.rising, to.falling = width*(from.Mode-from.Min), width*(from.Max-from.Mode)
		for n, count := range from.Tools {
			to.needs |= uint64(count) << (16 * n)
		}
		for _, p := range from.Preds {
			before := &k.tasks[k.placeOfTask[p.Task]]
			if p.Lag > 0 {
				before.lagged = append(before.lagged, handLag{uint8(place), int64(p.Lag) * 60_000})
			} else {
				before.next = append(before.next, uint8(place))
			}
		}
		if k.pending[place] = uint8(len(from.Preds)); len(from.Preds) == 0 {
			k.ready |= 1 << place
		}
	}
	return k
}

// draw draws the work of each task, in millionths of a person-millisecond.
func (k *handR1) draw(seed uint64, works *[28]int64) {
	mix := func(z uint64) uint64 {
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z = (z ^ z>>27) * 0x94d049bb133111eb
		return z ^ z>>31
	}
	from := mix(seed * 0x9e3779b97f4a7c15)
	for place := range k.tasks {
		t := &k.tasks[place]
		u := (float64(mix(mix(from^uint64(t.index)*0x9e3779b97f4a7c15))>>12) + 0.5) / (1 << 52)
		minutes := t.min + math.Sqrt(u*t.rising)
		if u >= t.share {
			minutes = t.max - math.Sqrt((1-u)*t.falling)
		}
		works[place] = int64(60_000*minutes+0.5) * sim.WorkUnit
	}
}

// play returns when milestones A and B and the end are reached, in ms.
func (k *handR1) play(works *[28]int64) (a, b, end int64) {
	const guards, lagKind, relief = 0x8000_8000_8000_8000, 64, 30 * 60_000
	pending, ready, tools := k.pending, k.ready, k.tools
	idle, pointer, longest, other := uint64(0x3fc), 2, 0, 1
	left, now, nextRelief := len(k.tasks), int64(0), int64(relief)
	var crews [28]uint64
	var queue [40]uint64 // the soonest last
	n := 0
	push := func(at int64, what uint64) {
		key, i := uint64(at)<<8|what, n
		n++
		for i > 0 && queue[i-1] < key {
			queue[i] = queue[i-1]
			i--
		}
		queue[i] = key
	}
	for {
		for m := ready; m != 0; {
			place := bits.TrailingZeros32(m)
			m &= m - 1
			t := &k.tasks[place]
			if (tools|guards-t.needs)&guards != guards {
				continue
			}
			crew := idle & t.eligible
			size := bits.OnesCount64(crew)
			if size < t.low {
				continue
			}
			if size > t.high {
				rest := crew
				for range t.high {
					rest &= rest - 1
				}
				crew, size = crew&^rest, t.high
			}
			idle, tools, ready, crews[place] = idle&^crew, tools-t.needs, ready&^(1<<place), crew
			push(now+(works[place]-1)/k.rates[size]+1, uint64(place))
		}
		next := int64(math.MaxInt64)
		if n > 0 {
			next = int64(queue[n-1] >> 8)
		}
		if nextRelief < next {
			now, nextRelief = nextRelief, nextRelief+relief
			free := idle
			for range 2 {
				if free == 0 {
					break
				}
				from := free >> pointer << pointer
				if from == 0 {
					from = free
				}
				who := bits.TrailingZeros64(from)
				free &^= 1 << who
				idle = idle&^(1<<who) | 1<<longest
				longest, other, pointer = other, who, who+1
			}
			continue
		}
		now = next
		n--
		what := int(queue[n] & 0xff)
		if what >= lagKind {
			if pending[what-lagKind]--; pending[what-lagKind] == 0 {
				ready |= 1 << (what - lagKind)
			}
			continue
		}
		t := &k.tasks[what]
		idle, tools = idle|crews[what], tools+t.needs
		switch what {
		case k.milestones[0]:
			a = now
		case k.milestones[1]:
			b = now
		}
		if left--; left == 0 {
			return a, b, now
		}
		for _, place := range t.next {
			if pending[place]--; pending[place] == 0 {
				ready |= 1 << place
			}
		}
		for _, l := range t.lagged {
			push(now+l.lag, lagKind+uint64(l.place))
		}
	}
}

// The yardstick must play the model that it measures by.
func TestModelR1ByHandAgreesWithAnIndependentModel(t *testing.T) {
	const tolerance = 10 // ms, as for the engines
	k := newHandR1(t)
	works, want := r1Runs(t)
	for run := range works {
		var drawn [28]int64
		for place := range k.tasks {
			drawn[place] = int64(sim.Milliseconds(60e3*works[run][k.tasks[place].index])) * sim.WorkUnit
		}
		a, b, end := k.play(&drawn)
		for i, got := range []int64{a, b, end} {
			if off := float64(got) - 60e3*want[run][i]; off > tolerance || off < -tolerance {
				t.Errorf("set %d: value %d is %d ms by hand, %.1f of the independent model", run, i, got, 60e3*want[run][i])
			}
		}
	}
}
