package batch_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/stats"
)

// camp is one person who digs, pitches and builds a wall, each taking a uniform
// length from 0 to twice the minutes given; the first by how much the point
// says.
func camp(dig float64, sequence ...int) *sim.Drill {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "centre", In: -1}},
		People: []sim.Person{{Name: "Aila", Pace: 1000}},
	}
	for i, name := range []string{"dig", "pitch", "wall"} {
		minutes := []float64{dig, 30, 15}[i]
		d.Tasks = append(d.Tasks, sim.Task{Name: name, Kind: sim.Takes, Amount: drills.Even(minutes * 60000),
			Crew: sim.Crew{Min: 1, Max: 1}, Item: -1})
	}
	d.Milestones = []sim.Milestone{
		{Name: "shelter up", When: []int{1}, By: sim.Hour},
		{Name: sim.FinishName, When: []int{0, 1, 2}, By: sim.Never},
	}
	return d.Under(sim.Order{Name: fmt.Sprint(sequence), Groups: []sim.Group{{Sequence: sequence}}})
}

// plan has three points, two orders, and a last chunk that is not full.
func plan() *batch.Plan {
	return &batch.Plan{Seed: 3, Runs: 1000, Points: 3, Tasks: true, Drills: func(point int) ([]*sim.Drill, error) {
		dig := float64(10 * (point + 1))
		return []*sim.Drill{camp(dig, 0, 1, 2), camp(dig, 2, 0, 1)}, nil
	}}
}

// journal plays a plan and returns its chunks as a journal without a header.
func journal(t *testing.T, p *batch.Plan, workers int) []byte {
	t.Helper()
	var b []byte
	err := batch.Play(context.Background(), p.Course(), workers, func(ready []*batch.Chunk) error {
		for _, c := range ready {
			b = batch.AppendRecord(b, c)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func header(t *testing.T) []byte {
	t.Helper()
	line, err := batch.Header{Job: json.RawMessage(`{"seed":3}`)}.Line()
	if err != nil {
		t.Fatal(err)
	}
	return line
}

func read(t *testing.T, records []byte) []*batch.Chunk {
	t.Helper()
	r, err := batch.NewReader(bytes.NewReader(append(header(t), records...)))
	if err != nil {
		t.Fatal(err)
	}
	var list []*batch.Chunk
	for {
		c, err := r.Chunk()
		if errors.Is(err, io.EOF) {
			return list
		}
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, c)
	}
}

func TestRunsAreThoseOfTheEngine(t *testing.T) {
	p := plan()
	seen := 0
	for _, c := range read(t, journal(t, p, 2)) {
		ds, _ := p.Drills(c.Point)
		for i, d := range ds {
			program := fast.Compile(d)
			w, r := program.Worker(), new(fast.Result)
			for run := c.From; run < c.To; run++ {
				w.Run(p.Seed, run, r)
				k := run - c.From
				o := c.Orders[i]
				if diff := cmp.Diff(r.Milestones, o.Milestones[2*k:2*k+2]); diff != "" {
					t.Fatalf("point %d order %d run %d:\n%s", c.Point, i, run, diff)
				}
				if diff := cmp.Diff(r.Start, o.Start[3*k:3*k+3]); diff != "" {
					t.Fatalf("point %d order %d run %d, starts:\n%s", c.Point, i, run, diff)
				}
				if diff := cmp.Diff(r.End, o.End[3*k:3*k+3]); diff != "" {
					t.Fatalf("point %d order %d run %d, ends:\n%s", c.Point, i, run, diff)
				}
				seen++
			}
		}
	}
	if seen != 3*2*1000 {
		t.Errorf("%d runs, want 6000", seen)
	}
}

func TestBytesAreTheSameOnAnyNumberOfWorkers(t *testing.T) {
	one := journal(t, plan(), 1)
	for _, workers := range []int{2, 7} {
		if !bytes.Equal(journal(t, plan(), workers), one) {
			t.Errorf("%d workers give other bytes than one", workers)
		}
	}
}

func TestShardsOneAfterTheOtherAreTheWhole(t *testing.T) {
	whole := journal(t, plan(), 2)
	for _, n := range []int{1, 3, 5, 12, 40} { // 12 chunks: 40 shards leave some empty
		var parts []byte
		for i := range n {
			p := plan()
			p.Shard = batch.Shard{Index: i + 1, Of: n}
			parts = append(parts, journal(t, p, 2)...)
		}
		if !bytes.Equal(parts, whole) {
			t.Errorf("%d shards do not make the whole", n)
		}
	}
}

// A batch is interrupted after some chunks, its journal cut off within the next
// one, and then gone on with.
func TestAnInterruptedBatchGoesOnToTheSameBytes(t *testing.T) {
	for name, until := range map[string]*batch.Until{"fixed": nil, "until narrow": {What: batch.Mean, Wide: 20 * sim.Second}} {
		t.Run(name, func(t *testing.T) {
			again := func() *batch.Plan {
				p := plan()
				if p.Until = until; until != nil {
					p.Runs = 10_000
				}
				return p
			}
			whole := journal(t, again(), 2)
			for _, stop := range []int{1, 5, 9, 11} {
				ctx, cancel := context.WithCancel(context.Background())
				var kept []byte
				n := 0
				err := batch.Play(ctx, again().Course(), 3, func(ready []*batch.Chunk) error {
					for _, c := range ready {
						kept = batch.AppendRecord(kept, c)
						n++
					}
					if n >= stop {
						cancel()
					}
					return nil
				})
				if err != nil && !errors.Is(err, context.Canceled) {
					t.Fatal(err)
				}
				kept = kept[:len(kept)-7]
				r, err := batch.NewReader(bytes.NewReader(append(header(t), kept...)))
				if err != nil {
					t.Fatal(err)
				}
				course := again().Course()
				for {
					c, err := r.Chunk()
					if errors.Is(err, batch.ErrTorn) {
						break
					}
					if err != nil {
						t.Fatalf("a journal cut off within a chunk: %v, want ErrTorn", err)
					}
					if err := course.Add(c); err != nil {
						t.Fatal(err)
					}
				}
				kept = kept[:r.Offset()-int64(len(header(t)))]
				err = batch.Play(context.Background(), course, 2, func(ready []*batch.Chunk) error {
					for _, c := range ready {
						kept = batch.AppendRecord(kept, c)
					}
					return nil
				})
				if err != nil {
					t.Fatal(err)
				}
				if !bytes.Equal(kept, whole) {
					t.Errorf("stopped after %d chunks or more: %d bytes, want the same %d as without a stop", stop, len(kept), len(whole))
				}
			}
		})
	}
}

func TestAJournalCutOffAnywhereIsTornAndNeverMisread(t *testing.T) {
	p := plan()
	p.Runs, p.Points, p.Tasks = 40, 2, false
	all := append(header(t), journal(t, p, 1)...)
	first := len(header(t))
	for cut := range all {
		r, err := batch.NewReader(bytes.NewReader(all[:cut]))
		if cut < first {
			if !errors.Is(err, batch.ErrNoJournal) {
				t.Fatalf("cut at %d within the header: %v, want ErrNoJournal", cut, err)
			}
			continue
		}
		for err == nil {
			_, err = r.Chunk()
		}
		if clean := int64(cut) == r.Offset(); clean != errors.Is(err, io.EOF) || !clean && !errors.Is(err, batch.ErrTorn) {
			t.Fatalf("cut at %d, whole chunks up to %d: %v", cut, r.Offset(), err)
		}
	}
	for at := first; at < len(all); at += 13 {
		garbled := bytes.Clone(all)
		garbled[at] ^= 0x10
		r, err := batch.NewReader(bytes.NewReader(garbled))
		for err == nil {
			_, err = r.Chunk()
		}
		if !errors.Is(err, batch.ErrTorn) {
			t.Fatalf("bit flipped at %d: %v, want ErrTorn", at, err)
		}
	}
}

func TestACourseRefusesAChunkThatIsNotTheNext(t *testing.T) {
	list := read(t, journal(t, plan(), 1))
	c := plan().Course()
	if err := c.Add(list[1]); err == nil {
		t.Error("the second chunk first: no error")
	}
	if err := c.Add(list[0]); err != nil {
		t.Error(err)
	}
	if err := c.Add(list[0]); err == nil {
		t.Error("the first chunk twice: no error")
	}
}

func TestUntilRefusesAChunkOfAnotherShape(t *testing.T) {
	p := plan()
	p.Until = &batch.Until{What: batch.Mean, Wide: sim.Minute}
	for _, orders := range [][]batch.OrderRuns{nil, {{}, {}}, {{Milestones: make([]sim.Time, 512)}}} {
		if err := p.Course().Add(&batch.Chunk{Span: batch.Span{To: 256}, Orders: orders}); err == nil {
			t.Errorf("%d orders: no error", len(orders))
		}
	}
}

func TestDoneAndLeftAddUp(t *testing.T) {
	for _, shard := range []batch.Shard{{}, {Index: 1, Of: 3}, {Index: 3, Of: 3}, {Index: 2, Of: 7}} {
		p := plan()
		p.Shard = shard
		c := p.Course()
		all := c.Left()
		if shard.Whole() && all != 3000 {
			t.Errorf("%d runs to play, want 3000", all)
		}
		err := batch.Play(context.Background(), c, 1, func(ready []*batch.Chunk) error {
			if c.Done()+c.Left() != all {
				t.Errorf("shard %v: %d done and %d left of %d", shard, c.Done(), c.Left(), all)
			}
			return nil
		})
		if err != nil || c.Left() != 0 || c.Done() != all {
			t.Errorf("shard %v: %d done, %d left of %d at the end, %v", shard, c.Done(), c.Left(), all, err)
		}
	}
}

// The sums of a summary are those of the moments themselves.
func TestASummaryAddsUpTheRuns(t *testing.T) {
	p := plan()
	ds, _ := p.Drills(1)
	s := batch.NewSummary(ds)
	var moments [2][2][]sim.Time // by order and milestone
	for _, c := range read(t, journal(t, p, 2)) {
		if c.Point != 1 {
			continue
		}
		s.Add(c)
		for o := range moments {
			for k, at := range c.Orders[o].Milestones {
				moments[o][k%2] = append(moments[o][k%2], at)
			}
		}
	}
	if s.Runs != 1000 {
		t.Fatalf("%d runs, want 1000", s.Runs)
	}
	for o := range moments {
		for m := range moments[o] {
			var tally stats.Tally
			onTime, first := int64(0), int64(0)
			for run, at := range moments[o][m] {
				tally.Add(at)
				if at <= ds[o].Milestones[m].By {
					onTime++
				}
				if at <= moments[1-o][m][run] {
					first++
				}
			}
			got := s.Orders[o].Milestones[m]
			if got.Tally != tally || got.OnTime != onTime || got.First != first {
				t.Errorf("order %d milestone %d: %+v, on time %d, first %d; want %+v, %d, %d",
					o, m, got.Tally, got.OnTime, got.First, tally, onTime, first)
			}
			exact := stats.QuantileOf(stats.SortedOf(moments[o][m]), 0.9)
			if q := stats.QuantileOf(&got.Counts, 0.9); q.Value-exact.Value > 500 || exact.Value-q.Value > 500 {
				t.Errorf("order %d milestone %d: p90 %d ms, want %d within half a second", o, m, q.Value, exact.Value)
			}
			var paired stats.Paired
			for run := range moments[0][m] {
				paired.Add(moments[0][m][run], moments[1][m][run])
			}
			if s.Pairs[0].Milestones[m] != paired {
				t.Errorf("milestone %d, pair: %+v, want %+v", m, s.Pairs[0].Milestones[m], paired)
			}
		}
	}
}

func TestUntilGoesOnUntilTheIntervalIsNarrow(t *testing.T) {
	for _, u := range []batch.Until{
		{What: batch.Mean, Wide: 30 * sim.Second},
		{What: batch.Quantile, P: 0.9, Wide: sim.Minute},
		{What: batch.OnTime, Share: 0.02},
	} {
		p := plan()
		p.Runs, p.Until, p.Tasks = 100_000, &u, false
		c := p.Course()
		var sum *batch.Summary
		point := -1
		err := batch.Play(context.Background(), c, 2, func(ready []*batch.Chunk) error {
			for _, chunk := range ready {
				if chunk.Point != point {
					ds, _ := p.Drills(chunk.Point)
					point, sum = chunk.Point, batch.NewSummary(ds)
				}
				sum.Add(chunk)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if len(c.Verdicts()) != 3 {
			t.Fatalf("%+v: %d verdicts, want 3", u, len(c.Verdicts()))
		}
		for i, v := range c.Verdicts() {
			if !v.Narrow || v.Runs <= batch.FirstStage || v.Runs >= 100_000 {
				t.Errorf("%+v, point %d: %+v, want narrow after more than the first stage", u, i, v)
			}
		}
		for _, o := range sum.Orders { // of the last point
			m := &o.Milestones[0]
			switch mean, q, s := m.Tally.Mean(), stats.QuantileOf(&m.Counts, 0.9), stats.ShareOf(m.OnTime, sum.Runs); {
			case u.What == batch.Mean && mean.High-mean.Low > 30_000.5,
				u.What == batch.Quantile && q.High-q.Low > sim.Minute,
				u.What == batch.OnTime && s.High-s.Low > 0.02:
				t.Errorf("%+v: mean %+v, p90 %+v, on time %+v", u, mean, q, s)
			}
		}
	}
}

func TestUntilEndsWhenItCanNeverBeNarrow(t *testing.T) {
	p := plan()
	p.Runs, p.Points, p.Until = 3000, 1, &batch.Until{What: batch.Mean, Wide: sim.Millisecond}
	c := p.Course()
	if err := batch.Play(context.Background(), c, 2, func([]*batch.Chunk) error { return nil }); err != nil {
		t.Fatal(err)
	}
	if v := c.Verdicts()[0]; v.Narrow || v.Runs != 3000 || v.Why == "" {
		t.Errorf("a millisecond from 3000 runs: %+v", v)
	}
}

func TestShardNames(t *testing.T) {
	for text, want := range map[string]string{
		"2/8": "", "1/1": "",
		"5/3": "there is no shard 5 of 3: they count from 1 to 3",
		"0/3": "there is no shard 0 of 3: they count from 1 to 3",
		"3":   `expected I/N, such as 2/8, got "3"`,
		"a/b": `expected I/N, such as 2/8, got "a/b"`,
		"1/0": "shard 1/0: there may be 1 to 100000 shards",
	} {
		got := ""
		if _, err := batch.ParseShard(text); err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("ParseShard(%q): %q, want %q", text, got, want)
		}
	}
}

func TestMissingNamesGapsAndDoubles(t *testing.T) {
	s := func(i int) batch.Shard { return batch.Shard{Index: i, Of: 4} }
	missing, doubled, ok := batch.Missing([]batch.Shard{s(4), s(1), s(4)})
	if diff := cmp.Diff([][]batch.Shard{{s(2), s(3)}, {s(4)}}, [][]batch.Shard{missing, doubled}); diff != "" || !ok {
		t.Error(diff)
	}
	if _, _, ok := batch.Missing([]batch.Shard{{Index: 1, Of: 2}, {Index: 2, Of: 3}}); ok {
		t.Error("shards of different splits go together")
	}
}

func TestMeasures(t *testing.T) {
	for text, want := range map[string]string{
		"hot drink p90":      `"hot drink" 1 0.9`,
		"heated mean":        `"heated" 0 0`,
		"shelter up on time": `"shelter up" 2 0`,
		"hot drink p100":     "error",
		"mean":               "error",
		"hot drink":          "error",
		"":                   "error",
	} {
		name, what, p, err := batch.ParseMeasure(text)
		got := fmt.Sprintf("%q %d %g", name, what, p)
		if err != nil {
			got = "error"
		}
		if got != want {
			t.Errorf("ParseMeasure(%q) = %s, want %s", text, got, want)
		}
	}
}

// x waits for y, which stands in turn behind z, which waits for x.
func TestADrillThatComesToAStopCountsAsNever(t *testing.T) {
	d := camp(20, 0, 1, 2)
	d.People = append(d.People, sim.Person{Name: "Berend", Pace: 1000})
	d.Tasks[0].After = []sim.After{{Task: 1}}
	d.Tasks[2].After = []sim.After{{Task: 0}}
	d.Groups = []sim.Group{
		{Name: "one", People: []int{0}, Sequence: []int{0}, InTurn: true},
		{Name: "two", People: []int{1}, Sequence: []int{2, 1}, InTurn: true},
	}
	p := &batch.Plan{Seed: 1, Runs: 300, Points: 1, Drills: func(int) ([]*sim.Drill, error) { return []*sim.Drill{d}, nil }}
	s := batch.NewSummary([]*sim.Drill{d})
	for _, c := range read(t, journal(t, p, 2)) {
		s.Add(c)
	}
	if o := s.Orders[0]; o.Stopped != 300 || o.FirstStop != 0 || o.Milestones[0].Tally.Never != 300 {
		t.Errorf("stopped in %d runs, first %d, never in %d; want 300, 0, 300", o.Stopped, o.FirstStop, o.Milestones[0].Tally.Never)
	}
}

func FuzzReader(f *testing.F) {
	line, _ := batch.Header{Job: json.RawMessage(`{}`)}.Line()
	f.Add(line)
	f.Add(batch.AppendRecord(line, &batch.Chunk{Span: batch.Span{To: 1}, Orders: []batch.OrderRuns{{Milestones: []sim.Time{5, sim.Never}}}}))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := batch.NewReader(bytes.NewReader(data))
		if err != nil {
			return
		}
		for {
			c, err := r.Chunk()
			if err != nil {
				break
			}
			again, err := batch.Decode(batch.AppendRecord(nil, c)[8:])
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(c, again); diff != "" {
				t.Fatal(diff)
			}
		}
	})
}

// Whatever bit of the first line is flipped, the journal is not read: what it
// says of the batch would be another's.
func TestHeaderWithAnyBitFlippedIsRefused(t *testing.T) {
	line := header(t)
	for bit := range 8 * len(line) {
		data := append(bytes.Clone(line), journal1...)
		data[bit/8] ^= 1 << (bit % 8)
		if r, err := batch.NewReader(bytes.NewReader(data)); err == nil {
			t.Fatalf("bit %d of byte %d flipped, and it is read as %s", bit%8, bit/8, r.Header.Job)
		}
	}
}

// journal1 stands for the records after a header.
var journal1 = []byte("\x05\x00\x00\x00 and so on\n")

func TestJournalOfAnotherFormatIsNamed(t *testing.T) {
	for _, line := range []string{"{\"warmby_journal\":2,\"job\":{}}\n", "{\"warmby_journal\":5,\"job\":{}}\n"} {
		_, err := batch.NewReader(strings.NewReader(line))
		if err == nil || !strings.Contains(err.Error(), "this version reads 4") {
			t.Errorf("%q is answered by %v", line, err)
		}
	}
}
