package stopwatch

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"warmby/scenarios"
)

// headings are the columns of the three tables.
var headings = map[tableKind][]string{
	ofRows:       {"drill", "date", "team", "task", "person", "start", "end", "note"},
	ofConditions: {"drill", "date", "team", "arrival", "order", "air", "wind", "dark", "indoor", "learning", "stove", "fuel before", "fuel after", "water melted", "note"},
	ofFelt:       {"drill", "person", "at", "felt", "note"},
}

// tableKind is a kind of table.
type tableKind int

const (
	ofRows tableKind = iota
	ofConditions
	ofFelt
)

// shown is how many mistakes and remarks of a file are kept; the others are
// counted.
const shown = 200

// file is one file under way.
type file struct {
	name    string
	text    []byte
	csv     *csv.Reader
	commas  bool // decimals may be written with a comma
	kind    tableKind
	columns map[string]int
	row     []string
	line    int
	lines   []int // where each line begins
	wrong   []scenarios.Problem
	more    int
	remarks []Remark
	moments map[string]moment
}

// Remark is something that a reader of the log should know and that is no
// mistake.
type Remark struct {
	File      string
	Line, Col int
	Text      string
}

func newFile(name string, text []byte) *file {
	f := &file{name: name, text: bytes.TrimPrefix(text, []byte("\uFEFF")), moments: map[string]moment{}}
	comma := separator(f.text)
	f.commas = comma != ','
	f.csv = csv.NewReader(bytes.NewReader(f.text))
	f.csv.Comma, f.csv.Comment = comma, '#'
	f.csv.FieldsPerRecord, f.csv.ReuseRecord, f.csv.TrimLeadingSpace = -1, true, comma != '\t'
	return f
}

// separator returns what stands most often in the first line that is no comment.
func separator(text []byte) rune {
	for line := range bytes.Lines(text) {
		if len(bytes.TrimSpace(line)) == 0 || line[0] == '#' {
			continue
		}
		best, most := ',', bytes.Count(line, []byte(","))
		for _, c := range []rune{';', '\t'} {
			if n := bytes.Count(line, []byte(string(c))); n > most {
				best, most = c, n
			}
		}
		return best
	}
	return ','
}

// coded says what is wrong with the coding of a file; "" when nothing is.
func coded(text []byte) string {
	switch {
	case bytes.HasPrefix(text, []byte{0xFF, 0xFE}), bytes.HasPrefix(text, []byte{0xFE, 0xFF}):
		return "the file is UTF-16"
	case bytes.IndexByte(text, 0) >= 0:
		return "the file is not text"
	case !utf8.Valid(text):
		return "the file is not UTF-8"
	}
	return ""
}

// next reads the next row of a table; at a heading it turns to that table.
func (f *file) next() bool {
	for {
		row, err := f.csv.Read()
		if errors.Is(err, io.EOF) {
			return false
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			f.line = bad.Line
			f.failAt(bad.Line, bad.Column, "", bad.Err.Error(), "text with a separator or a quotation mark in it stands in quotation marks, those inside doubled")
			return false
		}
		if f.row = row; blank(row) {
			continue
		}
		f.line, _ = f.csv.FieldPos(0)
		if heading(row) {
			if !f.head() {
				return false
			}
			continue
		}
		if f.columns == nil {
			f.fail(0, "", "the first row must be the headings", "such as drill,date,team,task,person,start,end,note")
			return false
		}
		return true
	}
}

func blank(row []string) bool {
	for _, c := range row {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

func heading(row []string) bool {
	for _, c := range row {
		if len(c) < 20 && fold(c) == "drill" {
			return true
		}
	}
	return false
}

// fold makes texts that differ in capitals and spaces the same.
func fold(s string) string {
	if folded(s) {
		return s
	}
	return strings.ToLower(strings.Join(strings.Fields(s), " "))
}

// folded reports whether a text is plainly as fold would leave it.
func folded(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		space := c == ' ' && i > 0 && i+1 < len(s) && s[i+1] != ' '
		if !space && (c <= ' ' || c >= 'A' && c <= 'Z' || c >= 0x80) {
			return false
		}
	}
	return true
}

// head reads a row of headings.
func (f *file) head() bool {
	f.columns = map[string]int{}
	has := map[string]bool{}
	for _, c := range f.row {
		has[fold(c)] = true
	}
	switch {
	case has["task"]:
		f.kind = ofRows
	case has["felt"]:
		f.kind = ofFelt
	default:
		f.kind = ofConditions
	}
	ok := true
	for i, c := range f.row {
		name := fold(c)
		if name == "" {
			continue
		}
		if !contains(headings[f.kind], name) {
			f.fail(i, "", "unknown column "+quote(c), scenarios.NameHint(name, headings[f.kind]))
			ok = false
			continue
		}
		if _, twice := f.columns[name]; twice {
			f.fail(i, "", "the column "+quote(c)+" stands twice", "")
			ok = false
		}
		f.columns[name] = i
	}
	for _, needed := range map[tableKind][]string{ofRows: {"end"}, ofFelt: {"person", "at"}}[f.kind] {
		if _, ok2 := f.columns[needed]; !ok2 {
			f.fail(0, "", "the column "+quote(needed)+" is missing", "")
			ok = false
		}
	}
	return ok
}

func contains(list []string, s string) bool {
	for _, one := range list {
		if one == s {
			return true
		}
	}
	return false
}

// cell returns what stands in a column of the row; "" where there is none.
func (f *file) cell(column string) string {
	i, ok := f.columns[column]
	if !ok || i >= len(f.row) {
		return ""
	}
	return strings.TrimSpace(f.row[i])
}

// wrongCell adds a mistake at a column of the row.
func (f *file) wrongCell(column, message, hint string) {
	i := f.columns[column]
	if i >= len(f.row) {
		i = 0
	}
	f.fail(i, column, message, hint)
}

func (f *file) fail(field int, column, message, hint string) {
	line, col := f.line, 1
	if field < len(f.row) {
		line, col = f.csv.FieldPos(field)
	}
	f.failAt(line, col, column, message, hint)
}

func (f *file) failAt(line, col int, column, message, hint string) {
	if len(f.wrong) >= shown {
		f.more++
		return
	}
	text := f.lineText(line)
	if col-1 <= len(text) { // csv counts bytes, people count characters
		col = utf8.RuneCountInString(text[:max(0, col-1)]) + 1
	}
	f.wrong = append(f.wrong, scenarios.Problem{Line: line, Col: col, Path: column, Message: message, Hint: hint, Source: text})
}

func (f *file) remark(column, text string) {
	if len(f.remarks) >= shown {
		return
	}
	_, col := f.csv.FieldPos(min(f.columns[column], len(f.row)-1))
	f.remarks = append(f.remarks, Remark{f.name, f.line, col, text})
}

// lineText returns a line of the file.
func (f *file) lineText(n int) string {
	if f.lines == nil {
		f.lines = []int{0}
		for i, c := range f.text {
			if c == '\n' {
				f.lines = append(f.lines, i+1)
			}
		}
	}
	if n < 1 || n > len(f.lines) {
		return ""
	}
	line, _, _ := bytes.Cut(f.text[f.lines[n-1]:], []byte("\n"))
	return strings.TrimRight(string(line), "\r")
}
