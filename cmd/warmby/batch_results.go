package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/stats"
)

// batchTable is a file with a row for each moment; it takes chunk after chunk.
type batchTable interface {
	// encode makes what can be made of a chunk without the ones before; it is
	// called from several goroutines.
	encode(c *batch.Chunk) []byte
	write(c *batch.Chunk, encoded []byte) error
	close() error
	count() int64 // rows
}

// results is what became of a batch.
type results struct {
	plan    *batchPlan
	folder  string
	runs    []int64    // by point
	stops   []string   // warnings of drills that came to a stop
	rows    []tableRow // for the report on standard output
	figures *summaryFile
	files   []resultFile
	tables  map[string]batchTable
	names   []string // of the tables, in order
	course  *batch.Course
	summary *batch.Summary
	point   int
	sweep   *sweepPicture // nil when none is asked for
}

// resultFile is a file that was written.
type resultFile struct {
	name  string
	rows  int64 // of a table
	bytes int64
}

// writeResults makes the tables of a whole batch of its journals: one, or those
// of all shards in sequence. What is written depends on the plan and the chunks
// only.
func writeResults(ctx context.Context, p *batchPlan, folder string, journals []string, workers int, sweep *sweepPicture, progress *progress) (*results, error) {
	whole := p.Plan
	whole.Shard = batch.Shard{}
	r := &results{plan: p, folder: folder, course: whole.Course(), tables: map[string]batchTable{}, point: -1, sweep: sweep}
	defer progress.end()
	err := r.openTables()
	if err == nil {
		err = r.readJournals(ctx, journals, workers, progress)
	}
	if err == nil && r.course.Left() > 0 {
		err = &inputError{fmt.Sprintf("%s runs are missing at the end of %s", grouped(r.course.Left()), journals[len(journals)-1]), "go on with it by --resume"}
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
func (r *results) endFigures() error {
	if err := r.endPoint(); err != nil {
		return err
	}
	if err := r.figures.end(r.summaryTail()); err != nil {
		return r.cannotWrite("summary.json", err)
	}
	return nil
}

// closeAll closes tables and summary, and returns the first error.
func (r *results) closeAll() (err error) {
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

func (r *results) cannotWrite(name string, err error) error {
	return fmt.Errorf("cannot write %s: %w", filepath.Join(r.folder, name), reason(err))
}

func (r *results) openTables() (err error) {
	if r.figures, err = newSummaryFile(r.folder, r.summaryHead()); err != nil {
		return r.cannotWrite("summary.json", err)
	}
	p := r.plan
	milestones := int64(len(p.names.Milestones) * len(p.job.Orders))
	d := dialects[p.job.CSV]
	for _, t := range []struct {
		name    string
		asked   bool
		csv     csvEncoder
		rowsIn  func(c *batch.Chunk) int64
		parquet func(name string) (batchTable, error)
	}{
		{"runs", true, newCSVRuns(p), func(c *batch.Chunk) int64 { return milestones * int64(c.Runs()) },
			func(name string) (batchTable, error) { return newParquetTable(r.folder, name, p, runRows(p)) }},
		{"tasks", p.job.Tasks, &csvTasks{d, p}, taskRowsIn,
			func(name string) (batchTable, error) { return newParquetTable(r.folder, name, p, taskRows(p)) }},
		{"cold", p.job.Cold, &csvCold{d, p}, coldRows,
			func(name string) (batchTable, error) { return newParquetTable(r.folder, name, p, coldRowsOf(p)) }},
	} {
		if !t.asked {
			continue
		}
		name := t.name + "." + p.job.Format
		var table batchTable
		if p.job.Format == formatParquet {
			table, err = t.parquet(name)
		} else {
			table, err = newCSVTable(r.folder, name, d, t.csv, t.rowsIn)
		}
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
func (r *results) readJournals(ctx context.Context, journals []string, workers int, progress *progress) error {
	for _, path := range journals {
		if err := r.readJournal(ctx, path, workers, progress); err != nil {
			return err
		}
	}
	return nil
}

func (r *results) readJournal(ctx context.Context, path string, workers int, progress *progress) error {
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("cannot read %s: %w", path, reason(err))
	}
	defer f.Close()
	jr, err := batch.NewReader(bufio.NewReaderSize(f, 1<<20))
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if err := r.ofThisBatch(jr.Header.Job); err != nil {
		return &inputError{fmt.Sprintf("%s: %v", path, err), "leave the shards alone while they are merged"}
	}
	for {
		records, err := readGroup(jr, chunksAtOnce*workers)
		if err != nil {
			return &inputError{fmt.Sprintf("%s: %v", path, err), ""}
		}
		if len(records) == 0 {
			return nil
		}
		if err := r.work(ctx, records, workers); err != nil {
			return err
		}
		progress.update(r.course.Done(), r.course.Left())
	}
}

// ofThisBatch refuses a journal of another batch: one that took the place of
// what was planned with since that was read.
func (r *results) ofThisBatch(header []byte) error {
	job, err := readJob(header)
	if err != nil {
		return err
	}
	if why := r.plan.job.differs(job, "planned", "there"); why != "" {
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
	encoded [][]byte
}

func (r *results) work(ctx context.Context, records [][]byte, workers int) error {
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
func (r *results) fits(c *batch.Chunk) error {
	p := r.plan
	ok := len(c.Orders) == len(p.job.Orders) && c.Point < p.Points
	var names roster
	if ok && (p.job.Cold || p.job.Tasks) {
		var err error
		if names, err = p.rosters.of(c.Point); err != nil {
			return err
		}
	}
	people := 0
	if p.job.Cold {
		people = len(names.people)
	}
	for i := range c.Orders {
		o := &c.Orders[i]
		ok = ok && len(o.Milestones) == c.Runs()*len(p.names.Milestones)
		if p.job.Tasks {
			ok = ok && len(o.Start) == c.Runs()*len(names.tasks) && len(o.End) == len(o.Start)
		}
		ok = ok && len(o.Cold) == c.Runs()*people
	}
	if !ok {
		return &inputError{fmt.Sprintf("a chunk (runs %d to %d of point %d) does not fit the batch", c.From, c.To-1, c.Point+1), ""}
	}
	return nil
}

// add takes the next chunk into all that is made of the batch.
func (r *results) add(e encodedChunk) error {
	if err := r.course.Add(e.Chunk); err != nil {
		return &inputError{err.Error(), ""}
	}
	if e.Point != r.point {
		if err := r.endPoint(); err != nil {
			return err
		}
		drills, err := r.plan.drills(e.Point)
		if err != nil {
			return err
		}
		r.point, r.summary = e.Point, batch.NewSummary(drills)
		r.plan.rosters.forget(e.Point)
	}
	r.summary.Add(e.Chunk)
	for i, name := range r.names {
		if err := r.tables[name].write(e.Chunk, e.encoded[i]); err != nil {
			return r.cannotWrite(name, err)
		}
	}
	return nil
}

// writeSmallFiles writes what is known once all runs have been seen.
func (r *results) writeSmallFiles() error {
	for _, name := range r.names {
		r.files = append(r.files, resultFile{name: name, rows: r.tables[name].count()})
	}
	points, rows := r.pointsCSV()
	small := []outFile{
		{"points.csv", points}, {"methods.txt", []byte(r.methods())}, {"scenario.yaml", []byte(r.plan.job.Scenario)},
	}
	r.files = append(r.files, resultFile{name: "points.csv", rows: rows},
		resultFile{name: "summary.json"}, resultFile{name: "methods.txt"}, resultFile{name: "scenario.yaml"})
	for _, f := range small {
		if err := r.writeSmall(f); err != nil {
			return err
		}
	}
	for i := range r.files {
		info, err := os.Stat(filepath.Join(r.folder, r.files[i].name))
		if err != nil {
			return err
		}
		r.files[i].bytes = info.Size()
	}
	pack, err := r.dataPackage()
	if err != nil {
		return err
	}
	return r.writeSmall(outFile{packageName, pack})
}

func (r *results) writeSmall(f outFile) error {
	out, err := os.Create(filepath.Join(r.folder, f.path))
	if err != nil {
		return r.cannotWrite(f.path, err)
	}
	_, err = out.Write(f.data)
	if err == nil {
		err = out.Sync()
	}
	if err = errors.Join(err, out.Close()); err != nil {
		return r.cannotWrite(f.path, err)
	}
	return nil
}

// tableRow is a line of the report.
type tableRow struct {
	point            int
	order, milestone string
	mean             stats.Mean
	nine             stats.Quantile
	never            stats.Share
	onTime           *stats.Share
}

// shownRows is how many rows the report has at most.
const shownRows = 40

// text writes the report for people.
func (r *results) text(folder, command string, width int) string {
	p := r.plan
	var b strings.Builder
	b.WriteString(wrap(p.names.Title, width, "", ""))
	fmt.Fprintf(&b, "%s of each of %s", r.runsText(), counted(len(p.job.Orders), "order"))
	if p.Points > 1 {
		fmt.Fprintf(&b, " at each of %d points", p.Points)
	}
	fmt.Fprintf(&b, ", seed %d\n\n", p.job.Seed)
	b.WriteString(r.tableText(width))
	for _, w := range r.warnings() {
		b.WriteString(wrap("Warning: "+w+".", width, "", "  "))
	}
	fmt.Fprintf(&b, "\nWritten to %s:\n", folder)
	var rows [][]string
	for _, f := range r.files {
		row := []string{f.name, "", grouped(f.bytes) + " bytes"}
		if f.rows > 0 {
			row[1] = grouped(f.rows) + " rows"
		}
		rows = append(rows, row)
	}
	rows = append(rows, []string{packageName, "", ""})
	b.WriteString(table("  ", rows, 1, 2))
	if text := cautionsText(p.allCautions(), width); text != "" {
		b.WriteString("\nCautions\n" + text)
	}
	fmt.Fprintf(&b, "\nPlayed by: %s\n", command)
	return b.String()
}

// runsText says how many runs there were: "10,000 runs", or "2,048 to 9,984
// runs" when the points differ.
func (r *results) runsText() string {
	least, most := slices.Min(r.runs), slices.Max(r.runs)
	if least == most {
		if most == 1 {
			return "1 run"
		}
		return grouped(most) + " runs"
	}
	return grouped(least) + " to " + grouped(most) + " runs"
}

func (r *results) tableText(width int) string {
	several, nevers := r.plan.Points > 1, false
	kept := 2 // columns: order and milestone
	for _, t := range r.rows {
		nevers = nevers || t.never.Count > 0
	}
	head := []string{"order", "milestone", "mean", "95 % interval", "9 in 10 by", "95 % interval", "in time"}
	if several {
		kept += 1 + len(r.plan.job.Keys)
		head = append([]string{"point"}, append(r.plan.job.Keys[:len(r.plan.job.Keys):len(r.plan.job.Keys)], head...)...)
	}
	if nevers {
		head = append(head, "never")
	}
	rows := [][]string{head}
	for _, t := range r.rows {
		row := append([]string{t.order, t.milestone}, meanCells(t.mean)...)
		row = append(row, quantileCells(t.nine)...)
		row = append(row, shareCell(t.onTime, "no target"))
		if nevers {
			row = append(row, shareCell(&t.never, ""))
		}
		if several {
			lead := []string{fmt.Sprint(t.point + 1)}
			for _, v := range r.plan.job.Points[t.point] {
				if v == "" {
					v = "as in the file"
				}
				lead = append(lead, v)
			}
			row = append(lead, row...)
		}
		rows = append(rows, row)
	}
	text := "Hours, minutes and seconds since arrival:\n" + tableWithin(width, kept, "  ", rows)
	if several {
		text += fmt.Sprintf("  All milestones of all %d points are in summary.json.\n", r.plan.Points)
	}
	return text
}

// meanCells writes a mean and its interval.
func meanCells(m stats.Mean) []string {
	switch {
	case !m.OK():
		return []string{"none", m.Why}
	case m.Runs < 2:
		return []string{hms(wholeMillis(m.Value)), "one run"}
	}
	return []string{hms(wholeMillis(m.Value)), hms(wholeMillis(m.Low)) + " to " + hms(wholeMillis(m.High))}
}

// quantileCells writes a quantile and its interval.
func quantileCells(q stats.Quantile) []string {
	low, high := hms(q.Low), hms(q.High)
	if q.LowOpen {
		low = "unknown"
	}
	if q.HighOpen {
		high = "unknown"
	}
	return []string{hms(q.Value), low + " to " + high}
}

// shareCell writes a share and its interval, or else what stands for none.
func shareCell(s *stats.Share, none string) string {
	if s == nil {
		return none
	}
	return fmt.Sprintf("%s (%s to %s)", percentOf(s.Value), strings.TrimSuffix(percentOf(s.Low), " %"), percentOf(s.High))
}

// hms writes a moment as 1:08:47.
func hms(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	s := (int64(t) + 500) / 1000
	return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
}
