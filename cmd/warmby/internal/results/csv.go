package results

import (
	"bufio"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"warmby/sim"
	"warmby/sim/batch"
)

// The dialects of CSV files.
const (
	Plain   = "plain"
	ExcelEU = "excel-eu"
)

// dialect is how CSV files are written.
type dialect struct {
	comma   string // between columns
	decimal byte
	end     string // of a line
	mark    string // at the beginning of a file
	guard   bool   // whether names that a spreadsheet would work out are guarded
}

var dialects = map[string]dialect{
	Plain:   {comma: ",", decimal: '.', end: "\n"},
	ExcelEU: {comma: ";", decimal: ',', end: "\r\n", mark: "\uFEFF", guard: true},
}

// name writes a name as a cell.
func (d dialect) name(s string) string {
	if d.guard && s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		s = "'" + s // else a spreadsheet takes it for a formula
	}
	return d.cell(s)
}

// cell quotes a text when it needs it.
func (d dialect) cell(s string) string {
	if s == strings.TrimSpace(s) && !strings.ContainsAny(s, d.comma+"\"\r\n") {
		return s
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}

// number writes a number given with a decimal point.
func (d dialect) number(s string) string {
	return strings.Replace(s, ".", string(d.decimal), 1)
}

// appendSeconds adds a moment in seconds with three decimals; nothing for never.
func (d dialect) appendSeconds(b []byte, t sim.Time) []byte {
	if t == sim.Never {
		return b
	}
	return d.appendThousandths(b, int64(t))
}

// appendThousandths adds a number of thousandths, not below 0, with three
// decimals.
func (d dialect) appendThousandths(b []byte, n int64) []byte {
	b = strconv.AppendInt(b, n/1000, 10)
	n %= 1000
	return append(b, d.decimal, byte('0'+n/100), byte('0'+n/10%10), byte('0'+n%10))
}

// csvRuns writes a row for each run, order and milestone of a chunk.
type csvRuns struct {
	d      dialect
	prefix [][]string // by order and milestone: ",order,milestone,"
}

func newCSVRuns(p *Plan) *csvRuns {
	c := &csvRuns{d: dialects[p.Job.CSV]}
	for _, order := range p.Job.Orders {
		var list []string
		for _, m := range p.First.Milestones {
			list = append(list, c.d.comma+c.d.name(order)+c.d.comma+c.d.name(m.Name)+c.d.comma)
		}
		c.prefix = append(c.prefix, list)
	}
	return c
}

func (c *csvRuns) columns() []string { return []string{"point", "run", "order", "milestone", "time_s"} }

func (c *csvRuns) encode(b []byte, chunk *batch.Chunk) []byte {
	point := strconv.Itoa(chunk.Point+1) + c.d.comma
	n := len(c.prefix[0])
	for run := chunk.From; run < chunk.To; run++ {
		k := (run - chunk.From) * n
		for o := range chunk.Orders {
			for m, at := range chunk.Orders[o].Milestones[k : k+n] {
				b = append(b, point...)
				b = strconv.AppendInt(b, int64(run), 10)
				b = append(b, c.prefix[o][m]...)
				b = c.d.appendSeconds(b, at)
				b = append(b, c.d.end...)
			}
		}
	}
	return b
}

// csvTasks writes a row for each run, order and task of a chunk.
type csvTasks struct {
	d dialect
	p *Plan
}

// prefixes returns ",order,task," by order and task.
func (c *csvTasks) prefixes(tasks []string) [][]string {
	var all [][]string
	for _, order := range c.p.Job.Orders {
		var list []string
		for _, t := range tasks {
			list = append(list, c.d.comma+c.d.name(order)+c.d.comma+c.d.name(t)+c.d.comma)
		}
		all = append(all, list)
	}
	return all
}

func (c *csvTasks) columns() []string {
	return []string{"point", "run", "order", "task", "start_s", "end_s"}
}

func (c *csvTasks) encode(b []byte, chunk *batch.Chunk) []byte {
	point := strconv.Itoa(chunk.Point+1) + c.d.comma
	tasks := c.p.rosters.there(chunk).tasks
	prefix, n := c.prefixes(tasks), len(tasks)
	for run := chunk.From; run < chunk.To; run++ {
		k := (run - chunk.From) * n
		for o := range chunk.Orders {
			for t := range n {
				b = append(b, point...)
				b = strconv.AppendInt(b, int64(run), 10)
				b = append(b, prefix[o][t]...)
				b = c.d.appendSeconds(b, chunk.Orders[o].Start[k+t])
				b = append(b, c.d.comma...)
				b = c.d.appendSeconds(b, chunk.Orders[o].End[k+t])
				b = append(b, c.d.end...)
			}
		}
	}
	return b
}

// csvEncoder makes rows of chunks; it is called from several goroutines.
type csvEncoder interface {
	columns() []string
	encode(b []byte, c *batch.Chunk) []byte
}

// csvTable is a CSV file that takes chunk after chunk.
type csvTable struct {
	rowsIn  func(c *batch.Chunk) int64
	encoder csvEncoder
	file    *os.File
	buf     *bufio.Writer
	rows    int64
}

func newCSVTable(folder, name string, d dialect, encoder csvEncoder, rowsIn func(c *batch.Chunk) int64) (*csvTable, error) {
	f, err := os.Create(filepath.Join(folder, name))
	if err != nil {
		return nil, err
	}
	t := &csvTable{rowsIn: rowsIn, encoder: encoder, file: f, buf: bufio.NewWriterSize(f, 1<<20)}
	_, err = t.buf.WriteString(d.mark + strings.Join(encoder.columns(), d.comma) + d.end)
	return t, err
}

func (t *csvTable) encode(c *batch.Chunk) []byte { return t.encoder.encode(nil, c) }

func (t *csvTable) write(c *batch.Chunk, encoded []byte) error {
	t.rows += t.rowsIn(c)
	_, err := t.buf.Write(encoded)
	return err
}

func (t *csvTable) close() error {
	err := t.buf.Flush()
	if err == nil {
		err = t.file.Sync()
	}
	return errors.Join(err, t.file.Close())
}

func (t *csvTable) count() int64 { return t.rows }

// csvFile writes a whole small CSV file. Numbers are given with a decimal
// point; isNumber says which columns hold them.
func csvFile(d dialect, isNumber []bool, rows [][]string) []byte {
	var b strings.Builder
	b.WriteString(d.mark)
	for i, row := range rows {
		for k, cell := range row {
			if k > 0 {
				b.WriteString(d.comma)
			}
			switch {
			case i > 0 && isNumber[k]:
				b.WriteString(d.number(cell))
			default:
				b.WriteString(d.cell(cell))
			}
		}
		b.WriteString(d.end)
	}
	return []byte(b.String())
}
