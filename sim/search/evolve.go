package search

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"
)

// evolution is an evolutionary search over lists of the jobs of a plain drill. Where
// that can be turned round and no skills are asked for twoSided finds more.
// Every list is decoded by the serial scheme, then turned round and decoded from
// the other end, and back, until that shortens it no more: forward-backward
// improvement, or double justification done again. Lists in the sequence of the
// schedules found so are bred on.
type evolution struct {
	p      *plain
	s      *scheduler
	random *rand.Rand
	budget int // schedules; a pass back and forth, and one to play it, take three
	ctx    context.Context
	bound  int32 // no schedule is shorter

	population []individual
	best       individual
	seen       map[uint64]bool

	list, turn, spare []int32
	taken             []bool
}

// individual is a schedule: its length and its lists from both ends.
type individual struct {
	span     int32
	forward  []int32 // by start
	backward []int32 // by end, the last first
	starts   []int32
}

const populationSize = 40

func newEvolution(p *plain, bound int32, budget int, random *rand.Rand) *evolution {
	n := len(p.task)
	return &evolution{p: p, s: newScheduler(p), random: random, budget: budget, bound: bound, seen: map[uint64]bool{},
		list: make([]int32, n), turn: make([]int32, n), spare: make([]int32, n), taken: make([]bool, n), best: individual{span: 1 << 30}}
}

func (e *evolution) done() bool {
	return e.s.made()+3 > e.budget || e.best.span <= e.bound || e.ctx.Err() != nil
}

// run searches from some lists on.
func (e *evolution) run(seeds [][]int32) individual {
	for _, list := range seeds {
		if e.done() {
			break
		}
		copy(e.list, list)
		e.admit(e.decode(true))
	}
	for !e.done() {
		e.populate()
		stale := 0
		for !e.done() && stale < 12*populationSize {
			if e.breed() {
				stale = 0
			} else {
				stale++
			}
		}
		if !e.done() {
			e.restart()
		}
	}
	return e.best
}

// restart begins a new population.
func (e *evolution) restart() {
	e.population = e.population[:0]
	clear(e.seen)
}

// populate fills the population up with random lists, those first that have
// long tails behind them.
func (e *evolution) populate() {
	for tries := 0; len(e.population) < populationSize && !e.done() && tries < 4*populationSize; tries++ {
		e.sample()
		e.admit(e.decode(true))
	}
}

// decode makes the best of the list at hand: one of the drill or, when not
// forward, of its mirror.
func (e *evolution) decode(forward bool) individual {
	n := len(e.p.task)
	in := individual{span: 1 << 30, forward: make([]int32, n), backward: make([]int32, n), starts: make([]int32, n)}
	if e.p.mirror == nil {
		in.span = e.s.serial(e.p, e.list)
		copy(in.starts, e.s.start)
		e.s.byStart(in.forward, e.list)
		return in
	}
	if !forward {
		// From the end: a right-justified schedule, read from its other end.
		end := e.s.serial(e.p.mirror, e.list)
		e.reverse(e.turn, e.list)
		e.s.byEnd(e.p.mirror, e.list, e.turn, end)
	}
	for {
		span := e.s.serial(e.p, e.list)
		if span >= in.span {
			break
		}
		in.span = span
		copy(in.starts, e.s.start)
		e.s.byStart(in.forward, e.list)
		e.reverse(e.turn, e.list)
		e.s.byEnd(e.p, in.backward, e.turn, span)
		if e.s.made()+3 > e.budget || span <= e.bound {
			break
		}
		end := e.s.serial(e.p.mirror, in.backward)
		e.reverse(e.turn, in.backward)
		e.s.byEnd(e.p.mirror, e.list, e.turn, end)
	}
	if e.p.skilled {
		// Crews are picked from other people when the list is played.
		in.span = e.s.inTurn(e.p, in.forward)
		copy(in.starts, e.s.start)
	}
	return in
}

func (e *evolution) reverse(to, list []int32) {
	for k, j := range list {
		to[len(list)-1-k] = j
	}
}

// admit takes an individual into the population unless a copy has been there.
// It reports whether it did.
func (e *evolution) admit(in individual) bool {
	if in.span < e.best.span {
		e.best = in
	}
	h := hash(in.starts)
	if e.seen[h] {
		return false
	}
	if len(e.population) < populationSize {
		e.seen[h] = true
		e.population = append(e.population, in)
		return true
	}
	worst := 0
	for k := range e.population {
		if e.population[k].span >= e.population[worst].span {
			worst = k
		}
	}
	if in.span > e.population[worst].span {
		return false
	}
	e.seen[h] = true
	better := in.span < e.population[worst].span
	e.population[worst] = in
	return better
}

func hash(xs []int32) uint64 {
	h := uint64(0x9e3779b97f4a7c15)
	for _, x := range xs {
		h = (h ^ uint64(uint32(x))) * 0xff51afd7ed558ccd
		h ^= h >> 32
	}
	return h
}

// breed makes a child of two and reports whether the population is the better
// for it.
func (e *evolution) breed() bool {
	mother, father := e.choose(), e.choose()
	forward := e.p.mirror == nil || e.random.IntN(2) == 0
	p, n := e.p, len(e.list)
	from, to := e.random.IntN(n+1), e.random.IntN(n+1)
	from, to = min(from, to), max(from, to)
	if forward {
		e.cross(e.population[mother].forward, e.population[father].forward, from, to)
	} else {
		p = e.p.mirror
		e.cross(e.population[mother].backward, e.population[father].backward, from, to)
	}
	e.mutate(p, mutated, 100)
	return e.admit(e.decode(forward))
}

// choose is a tournament of two.
func (e *evolution) choose() int {
	a, b := e.random.IntN(len(e.population)), e.random.IntN(len(e.population))
	if cmp.Less(e.population[b].span, e.population[a].span) {
		return b
	}
	return a
}

// cross writes a child into the list: the mother's jobs up to a first point and
// from a second one on, between them what is left in the father's sequence.
func (e *evolution) cross(mother, father []int32, from, to int) {
	clear(e.taken)
	for k := range from {
		e.list[k] = mother[k]
		e.taken[mother[k]] = true
	}
	k := from
	for _, j := range father {
		if k == to {
			break
		}
		if !e.taken[j] {
			e.list[k] = j
			e.taken[j] = true
			k++
		}
	}
	for _, j := range mother {
		if !e.taken[j] {
			e.list[k] = j
			k++
		}
	}
}

// mutate moves some jobs of so many to another place between what they come after and
// what comes after them.
func (e *evolution) mutate(p *plain, some, of int) {
	n := len(e.list)
	for k := range n {
		if e.random.IntN(of) >= some {
			continue
		}
		j := e.list[k]
		low, high := k, k
		for low > 0 && !linked(p, e.list[low-1], j) {
			low--
		}
		for high < n-1 && !linked(p, j, e.list[high+1]) {
			high++
		}
		to := low + e.random.IntN(high-low+1)
		if to < k {
			copy(e.list[to+1:k+1], e.list[to:k])
		} else {
			copy(e.list[k:to], e.list[k+1:to+1])
		}
		e.list[to] = j
	}
}

// mutated is how many jobs of a hundred a mutation moves.
const mutated = 10

// linked reports whether one job comes straight after another.
func linked(p *plain, a, b int32) bool {
	for _, l := range p.before[b] {
		if l.job == a {
			return true
		}
	}
	return false
}

// sample writes a list into e.list: of the jobs that may come next, those with
// a long tail behind them have the better chances (regret-based biased random
// sampling of the latest start).
func (e *evolution) sample() {
	tails := e.p.tail
	n := len(e.p.task)
	waits := make([]int, n)
	var may []int32
	for j := range n {
		if waits[j] = len(e.p.before[j]); waits[j] == 0 {
			may = append(may, int32(j))
		}
	}
	for k := range n {
		least := tails[may[0]]
		for _, j := range may {
			least = min(least, tails[j])
		}
		sum := 0
		for _, j := range may {
			sum += int(tails[j]-least) + 1
		}
		at, pick := e.random.IntN(sum), 0
		for i, j := range may {
			if at -= int(tails[j]-least) + 1; at < 0 {
				pick = i
				break
			}
		}
		j := may[pick]
		may = slices.Delete(may, pick, pick+1)
		e.list[k] = j
		for _, l := range e.p.behind[j] {
			if waits[l.job]--; waits[l.job] == 0 {
				may = append(may, l.job)
			}
		}
	}
}
