package search

import "math/bits"

// scheduler turns lists of the jobs of a plain drill into schedules. It keeps
// scratch space and is not safe for concurrent use.
type scheduler struct {
	p     *plain
	left  []uint64 // by unit of time and word: what is not in use
	busy  []uint64 // by unit of time: people at work, when skilled
	used  int32    // how far left and busy are in use
	start []int32  // by job
	key   []int32
	count []int32
	rest  []int32
	set   int // starts set, of all schedules together
}

func newScheduler(p *plain) *scheduler {
	s := &scheduler{p: p, left: make([]uint64, int(p.horizon+1)*p.words), start: make([]int32, len(p.task)),
		key: make([]int32, len(p.task)), count: make([]int32, p.horizon+2)}
	if p.skilled {
		s.busy = make([]uint64, p.horizon+1)
	}
	s.used = p.horizon + 1
	return s
}

// clear takes everybody and everything back.
func (s *scheduler) clear() {
	w := s.p.words
	for t := range int(s.used) {
		copy(s.left[t*w:], s.p.there)
	}
	if s.busy != nil {
		clear(s.busy[:s.used])
	}
	s.used = 0
}

// made returns how many schedules have been made. A schedule that was given up counts
// as much as has been made of it: one schedule sets the start of each job once
// (Kolisch and Hartmann, EJOR 174 (2006), 23-37).
func (s *scheduler) made() int {
	n := max(1, len(s.start))
	return (s.set + n - 1) / n
}

// serial is the serial schedule generation scheme. It goes through a list, in which
// every job stands after those that it comes after, and starts each at the earliest
// moment from which all it needs is there for as long as it takes. It works on the
// drill given, the scheduler's own or its mirror, and returns the length of the
// schedule.
func (s *scheduler) serial(p *plain, list []int32) int32 {
	span, _ := s.serialWithin(p, list, 1<<30)
	return span
}

// serialWithin is serial, given up as soon as what is still to come after a job cannot
// end within a limit.
func (s *scheduler) serialWithin(p *plain, list []int32, limit int32) (span int32, ok bool) {
	s.clear()
	for _, j := range list {
		t := int32(0)
		for _, l := range p.before[j] {
			t = max(t, s.start[l.job]+l.gap)
		}
		if n := p.length[j]; n > 0 {
			t = s.fit(p, j, t, n)
		}
		s.set++
		if t+p.tail[j] > limit {
			return 0, false
		}
		s.start[j] = t
		span = max(span, t+p.length[j])
	}
	return span, true
}

// parallelWithin is serialWithin by the parallel schedule generation scheme: it goes
// through the moments at which something ends or may begin, and starts at each all that
// it can, in the sequence of the list. It is for drills without skills.
func (s *scheduler) parallelWithin(p *plain, list []int32, limit int32) (span int32, ok bool) {
	s.clear()
	for j := range s.start {
		s.start[j] = unset
	}
	s.rest = append(s.rest[:0], list...)
	for now := int32(0); len(s.rest) > 0; {
		next, waiting := int32(unset), s.rest[:0]
		for _, j := range s.rest {
			if now+p.tail[j] > limit {
				return 0, false
			}
			at := s.ready(p, j)
			if at > now || !s.holds(p, j, now) {
				if at > now {
					next = min(next, at)
				}
				waiting = append(waiting, j)
				continue
			}
			s.set++
			s.start[j] = now
			s.take(p, j, now, p.length[j])
			span = max(span, now+p.length[j])
		}
		s.rest = waiting
		for j, at := range s.start {
			if end := at + p.length[j]; at < unset && end > now {
				next = min(next, end)
			}
		}
		now = next
	}
	return span, true
}

// unset is the start of a job that has not been given one: later than any schedule.
const unset = 1 << 30

// ready returns when all that a job comes after lets it start; unset as long as some of
// that has no start yet.
func (s *scheduler) ready(p *plain, j int32) (at int32) {
	for _, l := range p.before[j] {
		if s.start[l.job] == unset {
			return unset
		}
		at = max(at, s.start[l.job]+l.gap)
	}
	return at
}

// fit finds the earliest place of a job from t on and takes it.
func (s *scheduler) fit(p *plain, j, t, n int32) int32 {
	if p.skilled {
		return s.fitSkilled(p, j, t, n)
	}
	if p.words == 1 {
		need := p.need[j]
		for u := t; u < t+n; u++ {
			if (s.left[u]-need)&laneTop != laneTop {
				t = u + 1
			}
		}
		for u := t; u < t+n; u++ {
			s.left[u] -= need
		}
	} else {
		for u := t; u < t+n; u++ {
			if !s.holds(p, j, u) {
				t = u + 1
			}
		}
		s.take(p, j, t, n)
	}
	s.used = max(s.used, t+n)
	return t
}

// holds reports whether the tools of a job are there during one unit of time.
func (s *scheduler) holds(p *plain, j, u int32) bool {
	w := int32(p.words)
	for k := range w {
		if (s.left[u*w+k]-p.need[j*w+k])&laneTop != laneTop {
			return false
		}
	}
	return true
}

func (s *scheduler) take(p *plain, j, t, n int32) {
	w := int32(p.words)
	for u := t; u < t+n; u++ {
		for k := range w {
			s.left[u*w+k] -= p.need[j*w+k]
		}
	}
	s.used = max(s.used, t+n)
}

func (s *scheduler) fitSkilled(p *plain, j, t, n int32) int32 {
	for {
		busy, ok := uint64(0), true
		for u := t; u < t+n && ok; u++ {
			busy |= s.busy[u]
			ok = s.holds(p, j, u)
		}
		if crew, filled := p.crews[j].pick(p.everyone &^ busy); ok && filled {
			s.take(p, j, t, n)
			for u := t; u < t+n; u++ {
				s.busy[u] |= crew
			}
			return t
		}
		t++
	}
}

// pick returns the crew that is called from those free, as [sim.Picker] picks
// it: in sequence, passing over anyone who would leave parts unfillable. All of
// some people can have a part if and only if, for every set of skills, those who
// can do nothing else of what is asked are no more than its parts (Hall's marriage
// theorem).
func (r *roles) pick(free uint64) (crew uint64, filled bool) {
	free &= r.able
	if bits.OnesCount64(free) < r.size {
		return 0, false
	}
	if r.parts == 0 {
		for range r.size {
			crew |= free & -free
			free &= free - 1
		}
		return crew, true
	}
	spare := r.size - r.parts
	left, parts := r.left, 0
	for m := free; m != 0 && parts < r.parts; m &= m - 1 {
		if next, ok := left.less(r.takes[r.kind[bits.TrailingZeros64(m)]]); ok {
			left, crew = next, crew|m&-m
			parts++
		}
	}
	if parts < r.parts || spare == 0 {
		return crew, parts == r.parts
	}
	return r.pickWithSpare(free, spare)
}

// pickWithSpare picks a crew in which some have no part.
func (r *roles) pickWithSpare(free uint64, spare int) (crew uint64, filled bool) {
	left := r.left
	for m := free; m != 0 && bits.OnesCount64(crew) < r.size; m &= m - 1 {
		next, ok := left.less(r.takes[r.kind[bits.TrailingZeros64(m)]])
		switch {
		case ok:
			left = next
		case spare > 0:
			spare--
		default:
			continue
		}
		crew |= m & -m
	}
	return crew, true
}

// inTurn plays a list as a group does by the rule "in turn": each job as soon
// as it may start, none before one that stands before it.
func (s *scheduler) inTurn(p *plain, list []int32) int32 {
	s.set += len(list)
	s.clear()
	end, now := int32(0), int32(0)
	for _, j := range list {
		for _, l := range p.before[j] {
			now = max(now, s.start[l.job]+l.gap)
		}
		n := p.length[j]
		if n > 0 {
			now = s.wait(p, j, now, n)
		}
		s.start[j] = now
		end = max(end, now+n)
	}
	return end
}

// wait returns the first moment from t on at which all that a job needs is
// free, and takes it: what is free when all that follows starts later stays
// free.
func (s *scheduler) wait(p *plain, j, t, n int32) int32 {
	for ; ; t++ {
		if !s.holds(p, j, t) {
			continue
		}
		if p.skilled {
			crew, filled := p.crews[j].pick(p.everyone &^ s.busy[t])
			if !filled {
				continue
			}
			for u := t; u < t+n; u++ {
				s.busy[u] |= crew
			}
		}
		s.take(p, j, t, n)
		return t
	}
}

// byStart writes the jobs into list by their start in the last schedule,
// those that start together in the sequence of the list given. If in that none
// stands before what it comes after, so in the new one.
func (s *scheduler) byStart(list, given []int32) {
	s.sortBy(list, given, s.start)
}

// byEnd writes the jobs into list by their end in the last schedule, the last
// first: a list for the mirror, as the list given must be.
func (s *scheduler) byEnd(p *plain, list, given []int32, end int32) {
	for j := range s.start {
		s.key[j] = end - s.start[j] - p.length[j]
	}
	s.sortBy(list, given, s.key)
}

// sortBy sorts jobs by a key from 0 to the horizon, by counting.
func (s *scheduler) sortBy(list, given, key []int32) {
	most := int32(0)
	for _, k := range key {
		most = max(most, k)
	}
	count := s.count[:most+2]
	clear(count)
	for _, k := range key {
		count[k+1]++
	}
	for k := 1; k < len(count); k++ {
		count[k] += count[k-1]
	}
	for _, j := range given {
		list[count[key[j]]] = j
		count[key[j]]++
	}
}
