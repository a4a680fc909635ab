package results

import (
	"errors"
	"os"
	"path/filepath"

	"github.com/parquet-go/parquet-go"

	"warmby/sim"
	"warmby/sim/batch"
)

// The formats of runs and tasks.
const (
	CSV     = "csv"
	Parquet = "parquet"
)

// parquetGroup is how many rows a row group has: what a writer holds in memory.
const parquetGroup = 1 << 18

// runRow is a row of runs.parquet; a nil time is never.
type runRow struct {
	Point     int32    `parquet:"point"`
	Run       int64    `parquet:"run,delta"`
	Order     string   `parquet:"order,dict"`
	Milestone string   `parquet:"milestone,dict"`
	Time      *float64 `parquet:"time_s,optional"`
}

// taskRow is a row of tasks.parquet.
type taskRow struct {
	Point int32    `parquet:"point"`
	Run   int64    `parquet:"run,delta"`
	Order string   `parquet:"order,dict"`
	Task  string   `parquet:"task,dict"`
	Start *float64 `parquet:"start_s,optional"`
	End   *float64 `parquet:"end_s,optional"`
}

// parquetTable is a Parquet file that takes chunk after chunk.
type parquetTable[Row any] struct {
	rowsOf func(rows []Row, seconds []float64, c *batch.Chunk) []Row
	file   *os.File
	w      *parquet.GenericWriter[Row]
	rows   []Row
	times  []float64 // times and peaks, what the rows point to
	total  int64
}

func newParquetTable[Row any](folder, name string, p *Plan, rowsOf func([]Row, []float64, *batch.Chunk) []Row) (*parquetTable[Row], error) {
	f, err := os.Create(filepath.Join(folder, name))
	if err != nil {
		return nil, err
	}
	options := []parquet.WriterOption{
		parquet.Compression(&parquet.Snappy), parquet.MaxRowsPerRowGroup(parquetGroup),
		parquet.CreatedBy("warmby", p.Job.Version, ""),
	}
	for _, kv := range p.Job.provenance() {
		options = append(options, parquet.KeyValueMetadata(kv[0], kv[1]))
	}
	return &parquetTable[Row]{rowsOf: rowsOf, file: f, w: parquet.NewGenericWriter[Row](f, options...)}, nil
}

func (t *parquetTable[Row]) encode(*batch.Chunk) []byte { return nil }

func (t *parquetTable[Row]) write(c *batch.Chunk, _ []byte) error {
	most := 0 // times and peaks in a chunk
	for i := range c.Orders {
		most += len(c.Orders[i].Milestones) + len(c.Orders[i].Start) + len(c.Orders[i].End) + 3*len(c.Orders[i].Cold)
	}
	if cap(t.times) < most {
		t.times = make([]float64, 0, most)
	}
	t.rows = t.rowsOf(t.rows[:0], t.times[:0:cap(t.times)], c)
	n, err := t.w.Write(t.rows)
	t.total += int64(n)
	return err
}

func (t *parquetTable[Row]) close() error {
	err := t.w.Close()
	if err == nil {
		err = t.file.Sync()
	}
	return errors.Join(err, t.file.Close())
}

func (t *parquetTable[Row]) count() int64 { return t.total }

// pointer adds a time in seconds to times, which must have room, and returns
// where it stands; nil for never.
func pointer(times *[]float64, t sim.Time) *float64 {
	if t == sim.Never {
		return nil
	}
	*times = append(*times, t.Seconds())
	return &(*times)[len(*times)-1]
}

func runRows(p *Plan) func([]runRow, []float64, *batch.Chunk) []runRow {
	milestones := p.First.Milestones
	return func(rows []runRow, times []float64, c *batch.Chunk) []runRow {
		for run := c.From; run < c.To; run++ {
			for o := range c.Orders {
				for m := range milestones {
					at := c.Orders[o].Milestones[(run-c.From)*len(milestones)+m]
					rows = append(rows, runRow{int32(c.Point + 1), int64(run), p.Job.Orders[o], milestones[m].Name, pointer(&times, at)})
				}
			}
		}
		return rows
	}
}

func taskRows(p *Plan) func([]taskRow, []float64, *batch.Chunk) []taskRow {
	return func(rows []taskRow, times []float64, c *batch.Chunk) []taskRow {
		tasks := p.rosters.there(c).tasks
		for run := c.From; run < c.To; run++ {
			for o := range c.Orders {
				for t := range tasks {
					k := (run-c.From)*len(tasks) + t
					rows = append(rows, taskRow{int32(c.Point + 1), int64(run), p.Job.Orders[o], tasks[t],
						pointer(&times, c.Orders[o].Start[k]), pointer(&times, c.Orders[o].End[k])})
				}
			}
		}
		return rows
	}
}
