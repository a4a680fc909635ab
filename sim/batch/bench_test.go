package batch_test

import (
	"context"
	"fmt"
	"io"
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/batch"
)

// BenchmarkPlay plays the shipped demo, first order, into a journal and sums on
// one worker and on two: ns/run halves when the machine has two processors to
// itself.
func BenchmarkPlay(b *testing.B) {
	data, _ := library.Read(library.Default)
	s, err := scenarios.Read(library.Default, data)
	if err != nil {
		b.Fatal(err)
	}
	d, err := s.Drill("")
	if err != nil {
		b.Fatal(err)
	}
	const runs = 600 * batch.ChunkRuns
	p := &batch.Plan{Seed: 1, Runs: runs, Points: 1, Drills: func(int) ([]*sim.Drill, error) { return []*sim.Drill{d}, nil }}
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sum := batch.NewSummary([]*sim.Drill{d})
				var buf []byte
				err := batch.Play(context.Background(), p.Course(), workers, func(ready []*batch.Chunk) error {
					buf = buf[:0]
					for _, c := range ready {
						buf = batch.AppendRecord(buf, c)
						sum.Add(c)
					}
					_, err := io.Discard.Write(buf)
					return err
				})
				if err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/runs, "ns/run")
		})
	}
}
