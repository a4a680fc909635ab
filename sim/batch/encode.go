package batch

import (
	"encoding/binary"
	"errors"

	"warmby/sim"
)

// errGarbled is a chunk whose bytes do not make sense.
var errGarbled = errors.New("garbled chunk")

// appendChunk writes a chunk as numbers of variable length: point, from, to,
// the number of orders, and for each of them how often and when first it
// stopped, then its milestones, starts, ends, what timelines tell and accounts of
// cold. A time is
// written one more than it is, sim.Never as 0.
func appendChunk(b []byte, c *Chunk) []byte {
	b = binary.AppendUvarint(b, uint64(c.Point))
	b = binary.AppendUvarint(b, uint64(c.From))
	b = binary.AppendUvarint(b, uint64(c.To))
	b = binary.AppendUvarint(b, uint64(len(c.Orders)))
	for i := range c.Orders {
		o := &c.Orders[i]
		b = binary.AppendUvarint(b, uint64(o.Stopped))
		b = binary.AppendUvarint(b, uint64(o.FirstStop))
		for _, times := range [][]sim.Time{o.Milestones, o.Start, o.End} {
			b = appendTimesOf(b, times)
		}
		b = appendTold(b, o)
		b = appendChills(b, o.Cold)
	}
	return b
}

func appendTime(b []byte, t sim.Time) []byte {
	if t == sim.Never {
		return append(b, 0)
	}
	return binary.AppendUvarint(b, uint64(t)+1)
}

// decodeChunk reads what appendChunk wrote, all of b. Garbled counts make it take
// no more than some twenty bytes of memory for each of b.
func decodeChunk(b []byte) (*Chunk, error) {
	r := numbers{b: b}
	c := &Chunk{Span: Span{r.count(), r.count(), r.count()}}
	n := r.count()
	if n > len(r.b)/11 { // an order is eleven numbers at least
		return nil, errGarbled
	}
	c.Orders = make([]OrderRuns, n)
	for i := range c.Orders {
		o := &c.Orders[i]
		o.Stopped, o.FirstStop = r.count(), r.count()
		o.Milestones, o.Start, o.End = r.times(), r.times(), r.times()
		r.told(o)
		o.Cold = r.chills()
	}
	if r.bad || len(r.b) > 0 || c.From > c.To {
		return nil, errGarbled
	}
	return c, nil
}

// numbers reads numbers of variable length.
type numbers struct {
	b   []byte
	bad bool
}

func (r *numbers) next() uint64 {
	v, n := binary.Uvarint(r.b)
	if n <= 0 {
		r.bad, r.b = true, nil
		return 0
	}
	r.b = r.b[n:]
	return v
}

func (r *numbers) count() int {
	v := r.next()
	if v > 1<<40 {
		r.bad = true
		return 0
	}
	return int(v)
}

func (r *numbers) times() []sim.Time { return listOf(r, r.time) }

// listOf reads how many there are, then each; nil where there are none, or more
// than could stand in what is left.
func listOf[T any](r *numbers, one func() T) []T {
	n := r.count()
	if n > len(r.b) {
		r.bad = true
		return nil
	}
	if n == 0 {
		return nil
	}
	list := make([]T, n)
	for i := range list {
		list[i] = one()
	}
	return list
}

func (r *numbers) time() sim.Time {
	v := r.next()
	if v == 0 {
		return sim.Never
	}
	if v-1 > uint64(sim.Horizon) {
		r.bad = true
	}
	return sim.Time(v - 1)
}
