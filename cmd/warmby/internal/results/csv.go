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

// csvTable is a CSV file that takes chunk after chunk.
type csvTable struct {
	rows func(c *batch.Chunk) ([]byte, int64)
	file *os.File
	buf  *bufio.Writer
	n    int64
}

func newCSVTable(folder, name string, d dialect, head []string, rows func(*batch.Chunk) ([]byte, int64)) (*csvTable, error) {
	f, err := os.Create(filepath.Join(folder, name))
	if err != nil {
		return nil, err
	}
	t := &csvTable{rows: rows, file: f, buf: bufio.NewWriterSize(f, 1<<20)}
	_, err = t.buf.WriteString(d.mark + strings.Join(head, d.comma) + d.end)
	return t, err
}

func (t *csvTable) encode(c *batch.Chunk) encoded {
	b, n := t.rows(c)
	return encoded{b, n}
}

func (t *csvTable) write(_ *batch.Chunk, e encoded) error {
	t.n += e.rows
	_, err := t.buf.Write(e.bytes)
	return err
}

func (t *csvTable) close() error {
	err := t.buf.Flush()
	if err == nil {
		err = t.file.Sync()
	}
	return errors.Join(err, t.file.Close())
}

func (t *csvTable) count() int64 { return t.n }

// runsTable is the table of runs, whose CSV is made without reflection: it has
// by far the most rows that everybody gets.
type runsTable struct {
	rows[runRow]
	prefix [][]string // by order and milestone: ",order,milestone,"
}

func newRunsTable(p *Plan) *runsTable {
	t := &runsTable{rows: rows[runRow]{p, p.runRows}}
	d := dialects[p.Job.CSV]
	for _, order := range p.Job.Orders {
		var list []string
		for _, m := range p.First.Milestones {
			list = append(list, d.comma+d.name(order)+d.comma+d.name(m.Name)+d.comma)
		}
		t.prefix = append(t.prefix, list)
	}
	return t
}

func (t *runsTable) open(folder, name string) (batchTable, error) {
	if t.p.Job.Format == Parquet {
		return t.openParquet(folder, name)
	}
	return newCSVTable(folder, name, dialects[t.p.Job.CSV], []string{"point", "run", "order", "milestone", "time_s"}, t.csv)
}

func (t *runsTable) csv(c *batch.Chunk) (b []byte, rows int64) {
	d := dialects[t.p.Job.CSV]
	point := strconv.Itoa(c.Point+1) + d.comma
	n := len(t.prefix[0])
	t.p.eachRun(c, func(at AtRun, k, o int) {
		for m, came := range c.Orders[o].Milestones[k*n : (k+1)*n] {
			b = append(b, point...)
			b = strconv.AppendInt(b, at.Run, 10)
			b = append(b, t.prefix[o][m]...)
			b = d.appendSeconds(b, came)
			b = append(b, d.end...)
		}
	})
	return b, int64(n * len(c.Orders) * c.Runs())
}

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
