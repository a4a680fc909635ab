package results

import (
	"testing"

	"warmby/cmd/warmby/internal/ask"
	"warmby/sim/fast"
)

// BenchmarkPoint is what a point of a sweep takes before its first run: its drills,
// whether they can finish, and their programs.
func BenchmarkPoint(b *testing.B) {
	for _, name := range []string{"kestrel-fell", "lake-ossamer"} {
		b.Run(name, func(b *testing.B) {
			src, err := ask.Load(name, nil)
			if err != nil {
				b.Fatal(err)
			}
			points := 0
			for b.Loop() {
				job, err := NewJob(src, Question{Vary: []string{"weather.air=-40 C..-1 C step 1 C", "day=5 %, 10 %"}, How: Grid, Runs: 1, Format: CSV, CSV: Plain})
				if err != nil {
					b.Fatal(err)
				}
				plan, err := job.Ready(b.Context())
				if err != nil {
					b.Fatal(err)
				}
				for point := range plan.Points {
					drills, err := plan.Drills(point)
					if err != nil {
						b.Fatal(err)
					}
					for _, d := range drills {
						fast.Compile(d)
					}
				}
				points = plan.Points
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(points), "us/point")
		})
	}
}
