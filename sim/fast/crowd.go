package fast

import (
	"math/bits"

	"warmby/sim"
)

// crowd is people as bits of several words, for drills with more of them than a
// word has: person p is bit p % 64 of word p / 64.
type crowd []uint64

func crowdOf(people int) crowd { return make(crowd, (people+63)/64) }

func (c crowd) add(who int32)      { c[who>>6] |= 1 << (who & 63) }
func (c crowd) drop(who int32)     { c[who>>6] &^= 1 << (who & 63) }
func (c crowd) has(who int32) bool { return c[who>>6]>>(who&63)&1 == 1 }

// addAll adds all of another.
func (c crowd) addAll(o crowd) {
	for k := range c {
		c[k] |= o[k]
	}
}

// inBoth returns how many are in both.
func (c crowd) inBoth(o crowd) (n int) {
	for k := range c {
		n += bits.OnesCount64(c[k] & o[k])
	}
	return n
}

// rank keeps those with so many skills, if there are any.
func (p *Program) rank(skills int) {
	class, any := crowdOf(len(p.people)), false
	for i := range p.people {
		if p.people[i].skills.Count() == skills {
			class.add(int32(i))
			any = true
		}
	}
	if any {
		p.ranks = append(p.ranks, class)
	}
}

// roomForCrowds returns a crowd for each group, in the same memory where there is
// enough.
func (p *Program) roomForCrowds(crowds []crowd) []crowd {
	for len(crowds) < len(p.groups) {
		crowds = append(crowds, crowdOf(len(p.people)))
	}
	return crowds[:len(p.groups)]
}

// standingIn adds those who stand at lookouts and count as free for a task.
func (w *Worker) standingIn(t *task, c crowd) {
	for _, g := range t.ties.gives {
		for k := range w.lookouts[g.lookout].places {
			if who := w.lookouts[g.lookout].places[k].who; who >= 0 && !(w.p.hurts && w.hurt(who)) {
				c.add(who)
			}
		}
	}
}

// callCrowd is callCrew in a crowd.
func (w *Worker) callCrowd(i, di, most, stove int32) bool {
	t := &w.tasks[i]
	able, n := w.ableIn(t, di, true)
	size := min(most, n)
	if size < t.low {
		return false
	}
	crew := w.slots[t.crew : t.crew+size]
	if t.roles {
		roled := w.pickList(t, di, most)
		if len(roled) == 0 {
			return false
		}
		size = int32(copy(crew, roled))
		crew = crew[:size]
	} else {
		w.pickIn(able, crew, t.spot, size == n)
	}
	for _, who := range crew {
		w.idle.drop(who)
	}
	w.launch(i, t, di, stove, 0, size, t.ties != nil)
	return true
}

// ableIn returns those of a group's people who are free and may be on a task, and
// how many they are; with those called from lookouts, if asked for. It is valid until
// the next call.
func (w *Worker) ableIn(t *task, di int32, called bool) (able crowd, n int32) {
	able = w.able
	copy(able, w.idle)
	if called && t.ties != nil {
		w.standingIn(t, able)
	}
	for k, pool := range w.crowds[di] {
		able[k] &= pool & t.crowd[k]
		n += int32(bits.OnesCount64(able[k]))
	}
	return able, n
}

// pickIn fills a crew from those who are able, with all of them or with those whom
// pick would take.
func (w *Worker) pickIn(able crowd, crew []int32, spot int32, all bool) {
	n := 0
	if all {
		for k, m := range able {
			for ; m != 0; m &= m - 1 {
				crew[n] = int32(k)<<6 | lowest(m)
				n++
			}
		}
		return
	}
	for _, class := range w.p.ranks {
		if k := able.inBoth(class); n+k > len(crew) && !w.p.still {
			w.nearestIn(able, class, crew[n:], spot)
			return
		}
		for k, m := range class {
			for m &= able[k]; m != 0; m &= m - 1 {
				if n == len(crew) {
					return
				}
				crew[n] = int32(k)<<6 | lowest(m)
				n++
			}
		}
	}
}

// nearestIn fills a crew with those of a class who have the shortest walk to a
// spot, by roster among equals.
func (w *Worker) nearestIn(able, class crowd, crew []int32, spot int32) {
	for n := range crew {
		best, least := int32(-1), sim.Never
		for k, m := range class {
			for m &= able[k]; m != 0; m &= m - 1 {
				who := int32(k)<<6 | lowest(m)
				if walk := w.p.walksTo(spot)[w.crew[who].spot]; walk < least {
					best, least = who, walk
				}
			}
		}
		crew[n] = best
		able.drop(best)
	}
}
