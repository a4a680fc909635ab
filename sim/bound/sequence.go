package bound

import "warmby/sim"

// sequence returns how late a milestone is at least, given its longest chain:
// the critical-sequence bound (J. P. Stinson, E. W. Davis and B. M. Khumawala,
// AIIE Transactions 10 (1978), 252-259). What is at work beside the chain can
// go on only while the task of the chain then under way leaves it enough people,
// tools and stoves. Say that it takes d and that e is the longest stretch of the
// chain beside which it can go on, of those stretches no part counting that is
// sooner than its head or so late that what is behind it would not fit. Then the
// milestone is d - e after the chain or later: while it is at work the chain
// gets on by no more than one such stretch, for a task is not broken off, and
// the rest of the chain takes its time before or after.
//
// Lengths are the least, and of each supply what a task holds all the time that
// it lasts, so that neither crews nor joiners make it less. Lags of the chain
// leave everything to others.
func (b *Bounds) sequence(n *need, longest sim.Time) sim.Time {
	b.findChain(n, longest)
	if len(b.chain) == 0 {
		return longest
	}
	most := longest
	for i := range b.tail {
		length := b.length[i]
		if !n.ended[i] || b.onChain[i] || length == 0 || longest+length <= most {
			continue
		}
		low, high := b.head[i], longest-b.behind[i] // where it may lie
		beside := sim.Time(0)
		from := sim.Time(0) // of the stretch beside which it can go on
		for _, c := range b.chain {
			if b.apart[c*len(b.tail)+i] {
				beside = max(beside, min(b.head[c], high)-max(from, low))
				from = b.head[c] + b.length[c]
			}
		}
		beside = max(beside, min(longest, high)-max(from, low))
		if beside < length {
			most = max(most, longest+length-beside)
		}
	}
	return most
}

// findChain finds a longest chain: the tasks on it that must end, each with its
// head as its place on the chain.
func (b *Bounds) findChain(n *need, longest sim.Time) {
	for _, i := range b.chain {
		b.onChain[i] = false
	}
	b.chain = b.chain[:0]
	at := -1
	for _, i := range b.order {
		if n.begun[i] && b.head[i]+b.tail[i] == longest {
			at = i
			break
		}
	}
	for at >= 0 {
		next := -1
		whole := n.ended[at] && b.tail[at] == b.length[at]
		for _, l := range b.links {
			if l.From != at || !n.begun[l.To] {
				continue
			}
			if rest := l.Lag + b.tail[l.To]; !l.FromStart && b.tail[at] == b.length[at]+rest {
				next, whole = l.To, true
				break
			} else if l.FromStart && b.tail[at] == rest && next < 0 {
				next = l.To
			}
		}
		if whole {
			b.chain = append(b.chain, at)
			b.onChain[at] = true
		}
		if whole && b.tail[at] == b.length[at] {
			return
		}
		at = next
	}
}

// findApart finds out which two tasks can never be at work at one moment: they
// need more of something than there is.
func (b *Bounds) findApart() {
	n := len(b.d.Tasks)
	b.apart = make([]bool, n*n)
	for k := range b.supply {
		s := &b.supply[k]
		for _, x := range s.users {
			for _, y := range s.users {
				if x.task != y.task && x.share+y.share > float64(s.there) {
					b.apart[x.task*n+y.task] = true
				}
			}
		}
	}
}
