package results

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios/library"
	"warmby/sim/batch"
)

// batchTable is a file with a row for each moment; it takes chunk after chunk.
type batchTable interface {
	// encode makes what can be made of a chunk without the ones before; it is
	// called from several goroutines.
	encode(c *batch.Chunk) encoded
	write(c *batch.Chunk, e encoded) error
	close() error
	count() int64 // rows
}

// encoded is what a table made of a chunk: bytes, and how many rows they are.
type encoded struct {
	bytes []byte
	rows  int64
}

// Results is what became of a batch.
type Results struct {
	Plan    *Plan
	folder  string
	runs    []int64             // by point
	stops   []string            // warnings of drills that came to a stop
	rows    []report.BatchRow   // for the report, at most mostRows
	best    []report.BatchRow   // for its lead: those that come first
	apart   []report.BatchApart // for the report, at most mostRows
	over    []report.BatchOver  // by every two orders
	rare    *pointWarning       // what is seen too seldom, at the point where it is seldom most
	skewed  *pointWarning       // the mean that is most skewed for its runs
	figures *summaryFile
	Files   []File
	tables  map[string]batchTable
	names   []string // of the tables, in order
	course  *batch.Course
	summary *batch.Summary
	kept    *kept // of the point whose runs come in
	first   *kept // of the first point
	point   int
	sweep   *Sweep // nil when none is asked for
}

// File is a file that was written.
type File struct {
	Name  string
	Rows  int64 // of a table; 0 for none
	Bytes int64
}

// Progress is told how many runs are done and how many are left.
type Progress func(done, left int64)

// smallFile is a file that is written in one go.
type smallFile struct {
	name string
	data []byte
}

// Write makes the tables of a whole batch of its journals: one, or those
// of all shards in sequence. What is written depends on the plan and the chunks
// only.
func Write(ctx context.Context, p *Plan, folder string, journals []string, workers int, sweep *Sweep, progress Progress) (*Results, error) {
	whole := p.Plan
	whole.Shard = batch.Shard{}
	r := &Results{Plan: p, folder: folder, course: whole.Course(), tables: map[string]batchTable{}, point: -1, sweep: sweep}
	err := r.openTables()
	if err == nil {
		err = r.readJournals(ctx, journals, workers, progress)
	}
	if err == nil && r.course.Left() > 0 {
		err = &mistake.Input{What: fmt.Sprintf("%s runs are missing at the end of %s", grouped(r.course.Left()), journals[len(journals)-1]), Cure: "go on with it by --resume"}
	}
	if err == nil {
		err = r.endFigures()
	}
	if failed := r.closeAll(); err == nil {
		err = failed
	}
	if err == nil {
		err = r.writeSmallFiles()
	}
	return r, err
}

// endFigures writes what stands in summary.json after the last chunk.
func (r *Results) endFigures() error {
	if err := r.endPoint(); err != nil {
		return err
	}
	if err := r.figures.end(r.summaryTail()); err != nil {
		return r.cannotWrite("summary.json", err)
	}
	return nil
}

// closeAll closes tables and summary, and returns the first error.
func (r *Results) closeAll() (err error) {
	for _, name := range r.names {
		if failed := r.tables[name].close(); err == nil && failed != nil {
			err = r.cannotWrite(name, failed)
		}
	}
	if r.figures != nil {
		if failed := r.figures.close(); err == nil && failed != nil {
			err = r.cannotWrite("summary.json", failed)
		}
	}
	return err
}

func (r *Results) cannotWrite(name string, err error) error {
	return fmt.Errorf("cannot write %s: %w", filepath.Join(r.folder, name), mistake.Reason(err))
}

func (r *Results) openTables() (err error) {
	if r.figures, err = newSummaryFile(r.folder, r.summaryHead()); err != nil {
		return r.cannotWrite("summary.json", err)
	}
	p := r.Plan
	for _, t := range []struct {
		name  string
		asked bool
		open  func(folder, name string) (batchTable, error)
	}{
		{"runs", true, newRunsTable(p).open},
		{"tasks", p.Job.Tasks, rows[taskRow]{p, p.taskRows}.open},
		{"people", p.Job.People, rows[personRow]{p, p.personRows}.open},
		{"cold", p.Job.Cold, rows[coldRow]{p, p.coldRows}.open},
		{"fuel", p.Job.Fuel, rows[fuelRow]{p, p.fuelRows}.open},
		{"draws", p.Job.Draws, rows[drawRow]{p, p.drawRows}.open},
	} {
		if !t.asked {
			continue
		}
		name := t.name + "." + p.Job.Format
		table, err := t.open(r.folder, name)
		if err != nil {
			return r.cannotWrite(name, err)
		}
		r.tables[name], r.names = table, append(r.names, name)
	}
	return nil
}

// chunksAtOnce is how many chunks for each worker are read before they are worked on.
const chunksAtOnce = 16

// readJournals works on the chunks of journals one after the other, chunksAtOnce for each worker at
// a time.
func (r *Results) readJournals(ctx context.Context, journals []string, workers int, progress Progress) error {
	for _, path := range journals {
		if err := r.readJournal(ctx, path, workers, progress); err != nil {
			return err
		}
	}
	return nil
}

func (r *Results) readJournal(ctx context.Context, path string, workers int, progress Progress) error {
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("cannot read %s: %w", path, mistake.Reason(err))
	}
	defer f.Close()
	jr, err := batch.NewReader(bufio.NewReaderSize(f, 1<<20))
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if err := r.ofThisBatch(jr.Header.Job); err != nil {
		return &mistake.Input{What: fmt.Sprintf("%s: %v", path, err), Cure: "leave the shards alone while they are merged"}
	}
	for {
		records, err := readGroup(jr, chunksAtOnce*workers)
		if err != nil {
			return &mistake.Input{What: fmt.Sprintf("%s: %v", path, err), Cure: ""}
		}
		if len(records) == 0 {
			return nil
		}
		if err := r.work(ctx, records, workers); err != nil {
			return err
		}
		progress(r.course.Done(), r.course.Left())
	}
}

// ofThisBatch refuses a journal of another batch: one that took the place of
// what was planned with since that was read.
func (r *Results) ofThisBatch(header []byte) error {
	job, err := readJob(header)
	if err != nil {
		return err
	}
	if why := r.Plan.Job.Differs(job, "planned", "there"); why != "" {
		return fmt.Errorf("it is of another batch now: %s", why)
	}
	return nil
}

// readGroup reads up to n records.
func readGroup(r *batch.Reader, n int) ([][]byte, error) {
	var records [][]byte
	for len(records) < n {
		b, err := r.Record()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		records = append(records, b)
	}
	return records, nil
}

// encodedChunk is a chunk and what the tables made of it.
type encodedChunk struct {
	*batch.Chunk
	encoded []encoded
}

func (r *Results) work(ctx context.Context, records [][]byte, workers int) error {
	return batch.InOrder(ctx, workers, len(records),
		func() func(int) (encodedChunk, error) {
			return func(i int) (encodedChunk, error) {
				c, err := batch.Decode(records[i])
				if err == nil {
					err = r.fits(c)
				}
				if err != nil {
					return encodedChunk{}, err
				}
				e := encodedChunk{Chunk: c}
				for _, name := range r.names {
					e.encoded = append(e.encoded, r.tables[name].encode(c))
				}
				return e, nil
			}
		},
		func(ready []encodedChunk) error {
			for _, e := range ready {
				if err := r.add(e); err != nil {
					return err
				}
			}
			return nil
		})
}

// fits refuses a chunk of another shape than the plan's.
func (r *Results) fits(c *batch.Chunk) error {
	p := r.Plan
	ok := len(c.Orders) == len(p.Job.Orders) && c.Point < p.Points
	if ok && (p.Tasks || p.People || p.Cold || p.Fuel || p.Job.Draws) {
		there, err := p.rosters.Of(c.Point)
		if err != nil {
			return err
		}
		for i := range c.Orders {
			ok = ok && p.tellsAll(&c.Orders[i], there, c.Runs())
		}
	}
	for i := range c.Orders {
		ok = ok && len(c.Orders[i].Milestones) == c.Runs()*len(p.First.Milestones)
	}
	if !ok {
		return &mistake.Input{What: fmt.Sprintf("a chunk (runs %d to %d of point %d) does not fit the batch", c.From, c.To-1, c.Point+1), Cure: ""}
	}
	return nil
}

// tellsAll reports whether runs have as many of everything as the plan keeps.
func (p *Plan) tellsAll(o *batch.OrderRuns, there *roster, runs int) bool {
	tasks, people, stoves, cold := 0, 0, 0, 0
	if p.Tasks {
		tasks = runs * len(there.tasks)
	}
	if p.People {
		people = runs * len(there.people) * batch.Activities
	}
	if p.Cold {
		cold = runs * len(there.people)
	}
	if p.Fuel {
		stoves = runs * len(there.stoves)
	}
	return len(o.Start) == tasks && len(o.End) == tasks && len(o.Called) == tasks && len(o.Critical) == tasks &&
		len(o.Crew) == tasks*batch.CrewWords(len(there.people)) && len(o.Spent) == people && len(o.Cold) == cold && len(o.Fuel) == stoves
}

// add takes the next chunk into all that is made of the batch.
func (r *Results) add(e encodedChunk) error {
	if err := r.course.Add(e.Chunk); err != nil {
		return &mistake.Input{What: err.Error(), Cure: ""}
	}
	if e.Point != r.point {
		if err := r.endPoint(); err != nil {
			return err
		}
		drills, err := r.Plan.drills(e.Point)
		if err != nil {
			return err
		}
		r.point, r.summary, r.kept = e.Point, batch.NewSummary(drills), newKept(drills)
		r.Plan.rosters.Forget(e.Point)
	}
	r.summary.Add(e.Chunk)
	r.kept.add(e.Chunk)
	for i, name := range r.names {
		if err := r.tables[name].write(e.Chunk, e.encoded[i]); err != nil {
			return r.cannotWrite(name, err)
		}
	}
	return nil
}

// writeSmallFiles writes what is known once all runs have been seen.
func (r *Results) writeSmallFiles() error {
	for _, name := range r.names {
		r.Files = append(r.Files, File{Name: name, Rows: r.tables[name].count()})
	}
	points, rows := r.pointsCSV()
	small := []smallFile{
		{"points.csv", points}, {"methods.txt", []byte(r.methods())}, {"scenario.yaml", []byte(r.Plan.Job.Scenario)},
	}
	r.Files = append(r.Files, File{Name: "points.csv", Rows: rows},
		File{Name: "summary.json"}, File{Name: "methods.txt"}, File{Name: "scenario.yaml"})
	for _, f := range small {
		if err := r.writeSmall(f); err != nil {
			return err
		}
	}
	for i := range r.Files {
		info, err := os.Stat(filepath.Join(r.folder, r.Files[i].Name))
		if err != nil {
			return err
		}
		r.Files[i].Bytes = info.Size()
	}
	pack, err := r.dataPackage()
	if err != nil {
		return err
	}
	return r.writeSmall(smallFile{PackageFile, pack})
}

func (r *Results) writeSmall(f smallFile) error {
	out, err := os.Create(filepath.Join(r.folder, f.name))
	if err != nil {
		return r.cannotWrite(f.name, err)
	}
	_, err = out.Write(f.data)
	if err == nil {
		err = out.Sync()
	}
	if err = errors.Join(err, out.Close()); err != nil {
		return r.cannotWrite(f.name, err)
	}
	return nil
}

// RunsText says how many runs there were: "10,000 runs", or "2,048 to 9,984
// runs" when the points differ.
func (r *Results) RunsText() string {
	least, most := slices.Min(r.runs), slices.Max(r.runs)
	if least == most {
		if most == 1 {
			return "1 run"
		}
		return grouped(most) + " runs"
	}
	return grouped(least) + " to " + grouped(most) + " runs"
}

// mostRows is how many orders at points the report knows.
const mostRows = 1000

// Report tells what became of a batch in a folder; command makes it, and again
// tells everything of it.
func (r *Results) Report(folder, command, again string) report.Batched {
	p := r.Plan
	b := report.Batched{
		Drill: p.First, Points: p.Points, Orders: p.Job.Orders, Runs: r.RunsText(), Seed: p.Job.Seed, Keys: p.Job.Keys, Rows: r.rows, Best: r.best, Over: r.over,
		Shown: ShownMilestone(p.First), Apart: r.apart, Warns: r.Warnings(), Folder: folder,
		All: p.Cautions(), Cautions: "warmby cautions", Repeat: command, Again: again,
	}
	if file := p.Job.FileArg(); file != library.Default {
		b.Cautions += " " + ask.ShellWord(file)
	}
	for _, f := range r.Files {
		b.Files = append(b.Files, report.BatchFile{Name: f.Name, Rows: f.Rows, Bytes: f.Bytes})
	}
	b.Files = append(b.Files, report.BatchFile{Name: PackageFile})
	return b
}
