package search

import (
	"warmby/sim"
	"warmby/sim/bound"
)

// The priority rules that the search starts from. A task may be put next when all
// that it comes after is in the list. Of these each rule takes the one that
//
//	LFT   must end first, lest the milestone be later than the longest chain
//	LST   must start first
//	MTS   has the most tasks behind it
//	GRPW  has the most time behind it, task by task, its own included
//
// or, of equals, the first in the drill. Tasks that the milestone needs stand
// before the others. (R. Kolisch, Journal of Operations Management 14 (1996),
// 179-192; GRPW here counts all that come after, not only the next.)
const (
	ruleLFT = iota
	ruleLST
	ruleMTS
	ruleGRPW
	ruleCount
)

// ruleList returns the list of all tasks that a rule gives for a milestone.
func ruleList(b *bound.Bounds, rule int, luck *sim.Luck, milestone int) []int {
	chains := b.Chains(luck, milestone)
	n := len(chains.Length)
	count, time := behindAll(b.Links(), chains.Length)
	key := make([]int64, n)
	for i := range key {
		switch rule {
		case ruleLFT:
			key[i] = -int64(chains.Behind[i])
		case ruleLST:
			key[i] = -int64(chains.Tail[i])
		case ruleMTS:
			key[i] = -int64(count[i])
		default:
			key[i] = -int64(time[i])
		}
	}
	waits := make([]int, n)
	for _, l := range b.Links() {
		waits[l.To]++
	}
	begun := b.Begun(milestone)
	needed := func(i int) bool { return begun[i] }
	list := make([]int, 0, n)
	placed := make([]bool, n)
	for len(list) < n {
		next := -1
		for i := range n {
			if placed[i] || waits[i] > 0 {
				continue
			}
			if next < 0 || needed(i) && !needed(next) || needed(i) == needed(next) && key[i] < key[next] {
				next = i
			}
		}
		placed[next] = true
		list = append(list, next)
		for _, l := range b.Links() {
			if l.From == next {
				waits[l.To]--
			}
		}
	}
	return list
}

// behindAll returns for each task how many tasks come after it, near or far,
// and how long they last together with it.
func behindAll(links []bound.Link, length []sim.Time) (count []int, time []sim.Time) {
	n := len(length)
	behind := make([][]bool, n)
	count, time = make([]int, n), make([]sim.Time, n)
	for i := range behind {
		behind[i] = make([]bool, n)
	}
	for k := len(links) - 1; k >= 0; k-- {
		l := links[k]
		behind[l.From][l.To] = true
		for i, is := range behind[l.To] {
			behind[l.From][i] = behind[l.From][i] || is
		}
	}
	for i := range behind {
		time[i] = min(length[i], sim.Horizon)
		for k, is := range behind[i] {
			if is {
				count[i]++
				time[i] += min(length[k], sim.Horizon)
			}
		}
	}
	return count, time
}
