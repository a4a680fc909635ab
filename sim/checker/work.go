package checker

import (
	"math"
	"math/big"

	"warmby/sim"
)

// effective is e_n = round(10^6 n^x): what a crew of n is worth, in
// millionths of one.
func effective(n int, x float64) int64 {
	if n <= 0 {
		return 0
	}
	return int64(math.Round(1e6 * math.Pow(float64(n), x)))
}

// rate is floor(e_n P / (n s)) in millionths: P the sum of the paces of the
// people there and s what slows them, both in thousandths.
func (c *check) rate(task *sim.Task, there []int, at sim.Time) *big.Int {
	n := len(there)
	if n == 0 {
		return new(big.Int)
	}
	paces := int64(0)
	for _, p := range there {
		paces += c.luck.PaceOf(c.d, p)
	}
	up := new(big.Int).Mul(big.NewInt(effective(n, task.Teamwork)), big.NewInt(paces))
	down := new(big.Int).Mul(big.NewInt(int64(n)), big.NewInt(c.slowed(task, at)))
	return up.Quo(up, down)
}

// work is what there is to do: drawn person-milliseconds times 10^6, or the
// drawn time of the people timed, in whole milliseconds, times their e_n.
func (c *check) work(k int) *big.Int {
	unit := int64(1_000_000)
	if t := &c.d.Tasks[k]; t.Kind == sim.Timed {
		unit = effective(t.TimedPeople, t.Teamwork)
	}
	return new(big.Int).Mul(big.NewInt(int64(c.luck.Amount[k])), big.NewInt(unit))
}

// visit is a time that one person is there and works.
type visit struct {
	person   int
	from, to sim.Time
}

// visits returns who worked on a task when, and the moments at which that
// changes. Who is there at the end of the task or of the timeline stays.
func (c *check) visits(k int) ([]visit, []sim.Time) {
	var list []visit
	var changes []sim.Time
	for p, stretches := range c.tl.People {
		for _, s := range stretches {
			if s.What != sim.Working || s.Task != k {
				continue
			}
			v := visit{p, s.From, s.To}
			if s.To == c.tl.Tasks[k].End || s.To == c.tl.End {
				v.to = sim.Never
			}
			list = append(list, v)
			changes = append(changes, v.from, v.to)
		}
	}
	return list, changes
}

func there(list []visit, at sim.Time) []int {
	var people []int
	for _, v := range list {
		if v.from <= at && at < v.to {
			people = append(people, v.person)
		}
	}
	return people
}

// worked returns when the work of a task is done: what is done in an interval
// is rate times length, exactly; the intervals lie between arrivals of
// joiners, people pulled away, and changes of the conditions; the end is the
// first millisecond at which the work is done.
func (c *check) worked(k int) sim.Time {
	list, changes := c.visits(k)
	changes = rising(append(changes, c.changes()...))
	at, left := c.tl.Tasks[k].Start, c.work(k)
	for _, next := range append(changes, sim.Never) {
		if next <= at {
			continue
		}
		rate := c.rate(&c.d.Tasks[k], there(list, at), at)
		if need := timeFor(left, rate); need != sim.Never && (next == sim.Never || at+need <= next) {
			return at + need
		}
		if next == sim.Never {
			break
		}
		left.Sub(left, rate.Mul(rate, big.NewInt(int64(next-at))))
		at = next
	}
	return sim.Never
}

// doneAt returns when the work of a task would be done as things stand at a
// moment: with those who have worked on it so far, and from then on with the
// people given, at the rate of that moment.
func (c *check) doneAt(k int, now sim.Time, people []int) sim.Time {
	list, changes := c.visits(k)
	changes = append(append(changes, c.changes()...), now)
	at, left := c.tl.Tasks[k].Start, c.work(k)
	for _, next := range rising(changes) {
		if next <= at || next > now {
			continue
		}
		rate := c.rate(&c.d.Tasks[k], there(list, at), at)
		left.Sub(left, rate.Mul(rate, big.NewInt(int64(next-at))))
		at = next
	}
	need := timeFor(left, c.rate(&c.d.Tasks[k], people, now))
	if need == sim.Never {
		return sim.Never
	}
	return now + need
}

// timeFor is the first whole millisecond after which what is left is done.
func timeFor(left, rate *big.Int) sim.Time {
	if left.Sign() <= 0 {
		return 0
	}
	if rate.Sign() <= 0 {
		return sim.Never
	}
	q, r := new(big.Int).QuoRem(left, rate, new(big.Int))
	if r.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	if !q.IsInt64() || q.Int64() > int64(10*sim.Horizon) {
		return sim.Never
	}
	return sim.Time(q.Int64())
}
