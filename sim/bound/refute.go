package bound

import (
	"slices"

	"warmby/sim"
)

// refute returns how late a milestone is at least, given that it is no sooner than some
// moment: it looks, by halving, for the latest moment by which it cannot be reached
// (destructive improvement: R. Klein and A. Scholl, European Journal of Operational
// Research 112 (1999), 322-346).
func (b *Bounds) refute(n *need, least sim.Time) sim.Time {
	head, tail, behind := slices.Clone(b.head), slices.Clone(b.tail), slices.Clone(b.behind)
	most, at := least+least/2, least
	for ; least < most; at = least + (most-least)/2 {
		if b.refuted(n, at) {
			least = at + 1
		} else {
			most = at
		}
		copy(b.head, head)
		copy(b.tail, tail)
		copy(b.behind, behind)
	}
	return least
}

// refuted reports whether a milestone cannot be reached by a moment. If it could, every
// task would lie between its head and what is behind it. Tasks that are never at work
// together, and what is at work for certain, make that less and less, until one has no
// room, or there is too much work for what is there.
func (b *Bounds) refuted(n *need, at sim.Time) bool {
	for changed := true; changed; {
		b.forward()
		b.backward(n)
		for i := range b.head {
			if n.begun[i] && b.head[i]+b.tail[i] > at {
				return true
			}
		}
		changed = b.oneWay(n, at)
		for k := range b.supply {
			changed = b.passCores(n, &b.supply[k], at) || changed
		}
	}
	return b.supplied(n, at) > at
}

// oneWay puts one of two tasks that are never at work together behind the other where
// only that way is left.
func (b *Bounds) oneWay(n *need, at sim.Time) (changed bool) {
	for i := range b.head {
		for j := range b.head {
			if !b.apart[i*len(b.head)+j] || !n.ended[i] || !n.ended[j] || b.length[i] == 0 || b.length[j] == 0 {
				continue
			}
			if b.head[i]+b.length[i]+b.length[j]+b.behind[j] > at { // j comes first
				changed = b.startFrom(i, b.head[j]+b.length[j]) || changed
				changed = b.leaveBehind(j, b.length[i]+b.behind[i]) || changed
			}
		}
	}
	return changed
}

// startFrom has a task start no sooner than a moment, and reports whether that is new.
func (b *Bounds) startFrom(i int, at sim.Time) bool {
	if at <= b.head[i] {
		return false
	}
	b.head[i] = at
	return true
}

// leaveBehind has so much time pass from the end of a task to the milestone, and reports
// whether that is new.
func (b *Bounds) leaveBehind(i int, time sim.Time) bool {
	if time <= b.behind[i] {
		return false
	}
	b.behind[i], b.tail[i] = time, max(b.tail[i], b.length[i]+time)
	return true
}

// core is a stretch in which a share of a supply is in use for certain.
type core struct {
	from, to sim.Time
	share    float64
}

// core returns when a task is at work for certain: from its latest start to its soonest
// end, if that comes later.
func (b *Bounds) core(u user, at sim.Time) core {
	return core{at - b.behind[u.task] - b.length[u.task], b.head[u.task] + b.length[u.task], u.share}
}

// findCores finds what of a supply is in use for certain: for each task, from the moment
// at which it must have begun to the first at which one of those then at work may end.
func (b *Bounds) findCores(n *need, s *supply, at sim.Time) []core {
	b.cores = b.cores[:0]
	for _, u := range s.users {
		if c := b.core(u, at); n.ended[u.task] && c.from < c.to {
			b.cores = append(b.cores, c)
		}
	}
	single := len(b.cores)
	for _, c := range b.cores[:single] {
		c.share = 0
		for _, o := range b.cores[:single] {
			if o.from <= c.from && c.from < o.to {
				c.share += o.share
				c.to = min(c.to, o.to)
			}
		}
		b.cores = append(b.cores, c)
	}
	return b.cores[single:]
}

// passCores has each task lie before or after a stretch in which others leave it too
// little of a supply.
func (b *Bounds) passCores(n *need, s *supply, at sim.Time) (changed bool) {
	cores := b.findCores(n, s, at)
	for _, u := range s.users {
		if !n.ended[u.task] || b.length[u.task] == 0 {
			continue
		}
		for _, c := range cores {
			own, share := b.core(u, at), c.share
			if own.from <= c.from && c.from < own.to {
				share -= u.share // of the task itself
			}
			if share+u.share <= float64(s.there) {
				continue
			}
			if own.to > c.from { // it cannot end before
				changed = b.startFrom(u.task, c.to) || changed
			}
			if own.from < c.to { // it cannot start after
				changed = b.leaveBehind(u.task, at-c.from) || changed
			}
		}
	}
	return changed
}
