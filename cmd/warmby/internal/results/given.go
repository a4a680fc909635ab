package results

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/sim"
	"warmby/sim/draw"
)

// given is draws that are played in place of those of the seed. A file of them
// is either what --draws writes, a row for each number, or wide: a column for
// each that is drawn, named as [label] does, and a row for each run.
type given struct {
	path    string
	columns []string    // labels
	points  int         // 1 when all points have the same
	runs    int         // of each point
	u       [][]float64 // by point and run, then column
	places  draw.Places
	line    int // where columns are named
}

// mostGiven is how large a file of draws may be, in bytes.
const mostGiven = 256 << 20

// label names what is drawn, as the heading of a column: "day", "work: pitch the
// tent", "mishap 2: light the burner".
func label(purpose, name string, n int) string {
	text := purpose
	if n > 0 {
		text += fmt.Sprintf(" %d", n+1)
	}
	if name != "" {
		text += ": " + name
	}
	return text
}

// take reads the draws that are given, and settles the number of runs.
func (j *Job) take(path string) error {
	if path == "" {
		return nil
	}
	data, err := readAtMost(path, mostGiven, "a file of draws")
	if err != nil {
		return err
	}
	sum := sha256.Sum256(data)
	j.Given, j.givenPath, j.GivenSHA256 = filepath.Base(path), path, hex.EncodeToString(sum[:])
	if j.given, err = readGiven(path, data); err != nil {
		return err
	}
	if j.Runs == 0 {
		j.Runs = j.given.runs
	}
	if j.Runs > j.given.runs {
		return &mistake.Usage{What: fmt.Sprintf("--runs asks for %d runs, and %s has draws for %d", j.Runs, path, j.given.runs), Cure: "left out, all of them are played"}
	}
	if j.given.points > 1 && j.given.points != len(j.Points) {
		return &mistake.Usage{What: fmt.Sprintf("%s has draws for %d points, and %d are to be played", path, j.given.points, len(j.Points)), Cure: "without a column \"point\" all points have the same draws"}
	}
	return nil
}

// readAtMost reads a file, and refuses one that is too large: read up to a
// limit it would be played in part, and nobody would know.
func readAtMost(path string, most int64, what string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, mistake.Reason(err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, mistake.Reason(err))
	}
	if int64(len(data)) > most {
		return nil, &mistake.Input{What: fmt.Sprintf("%s: over %d MiB, which is more than %s may have", path, most>>20, what), Cure: "play it in parts, each a batch of its own"}
	}
	return data, nil
}

const givenHint = "\"warmby help draws\" tells what a file of draws looks like"

func readGiven(path string, data []byte) (*given, error) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\uFEFF"))))
	r.TrimLeadingSpace, r.ReuseRecord = true, true
	g := &given{path: path, points: 1}
	head, err := r.Read()
	if err != nil {
		return nil, g.bad(1, "expected a line of headings: %v", err)
	}
	head = slices.Clone(head)
	g.line = 1
	if slices.Contains(head, "purpose") && slices.Contains(head, "u") {
		err = g.readLong(r, head)
	} else {
		err = g.readWide(r, head)
	}
	if err == nil && g.runs == 0 {
		err = g.bad(1, "it has no draws")
	}
	return g, err
}

func (g *given) bad(line int, format string, args ...any) error {
	return &mistake.Input{What: fmt.Sprintf("%s:%d: %s", g.path, line, fmt.Sprintf(format, args...)), Cure: givenHint}
}

// next reads a row with its line; nil at the end.
func (g *given) next(r *csv.Reader) (row []string, line int, err error) {
	row, err = r.Read()
	var wrong *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		return nil, 0, nil
	case errors.As(err, &wrong):
		return nil, 0, g.bad(wrong.Line, "%v", wrong.Err)
	case err != nil:
		return nil, 0, err
	}
	line, _ = r.FieldPos(0)
	return row, line, nil
}

// uniform reads a number over 0 and under 1.
func (g *given) uniform(line int, heading, text string) (float64, error) {
	u, err := strconv.ParseFloat(text, 64)
	if err != nil || !(u > 0 && u < 1) {
		return 0, g.bad(line, "%s: expected a number over 0 and under 1, got %q", heading, text)
	}
	return u, nil
}

func (g *given) readWide(r *csv.Reader, head []string) error {
	for i, name := range head {
		if name == "" || slices.Contains(head[:i], name) {
			return g.bad(1, "column %d: the heading %q is empty or stands twice", i+1, name)
		}
	}
	g.columns = head
	for {
		row, line, err := g.next(r)
		if row == nil || err != nil {
			return err
		}
		us := make([]float64, len(row))
		for i, text := range row {
			if us[i], err = g.uniform(line, head[i], text); err != nil {
				return err
			}
		}
		g.u, g.runs = append(g.u, us), g.runs+1
	}
}

// cell is a number of a long table.
type cell struct {
	point, run, column int
	u                  float64
}

func (g *given) readLong(r *csv.Reader, head []string) error {
	at := func(row []string, heading, otherwise string) string {
		if i := slices.Index(head, heading); i >= 0 {
			return row[i]
		}
		return otherwise
	}
	for _, heading := range []string{"run", "name"} {
		if !slices.Contains(head, heading) {
			return g.bad(1, "there is no column %q", heading)
		}
	}
	var cells []cell
	columns := map[string]int{}
	for {
		row, line, err := g.next(r)
		if err != nil {
			return err
		}
		if row == nil {
			return g.arrange(cells)
		}
		var c cell
		for _, n := range []struct {
			heading string
			least   int
			to      *int
		}{{"point", 1, &c.point}, {"run", 0, &c.run}} {
			text := at(row, n.heading, "1")
			if *n.to, err = strconv.Atoi(text); err != nil || *n.to < n.least {
				return g.bad(line, "%s: expected a whole number from %d on, got %q", n.heading, n.least, text)
			}
		}
		n, err := strconv.Atoi(at(row, "draw", "1"))
		if err != nil || n < 1 {
			return g.bad(line, "draw: expected a whole number from 1 on, got %q", at(row, "draw", "1"))
		}
		what := label(at(row, "purpose", ""), at(row, "name", ""), n-1)
		var known bool
		if c.column, known = columns[what]; !known {
			c.column = len(g.columns)
			columns[what], g.columns = c.column, append(g.columns, what)
		}
		if c.u, err = g.uniform(line, "u", at(row, "u", "")); err != nil {
			return err
		}
		cells = append(cells, c)
	}
}

// arrange puts the numbers of a long table in their places: runs in rising
// order of their numbers, and every run of every point with all columns.
func (g *given) arrange(cells []cell) error {
	points, runs := numbers(cells, func(c cell) int { return c.point }), numbers(cells, func(c cell) int { return c.run })
	g.points, g.runs = len(points), len(runs)
	if g.points > 0 && points[g.points-1] != g.points {
		return g.bad(1, "points must be numbered from 1 on without gaps, and the last of %d has number %d", g.points, points[g.points-1])
	}
	if len(cells) != g.points*g.runs*len(g.columns) {
		return g.bad(1, "%d draws for each of %d runs at each of %d points are expected, %d in all, and there are %d: some are missing or stand twice",
			len(g.columns), g.runs, g.points, g.points*g.runs*len(g.columns), len(cells))
	}
	g.u = make([][]float64, g.points*g.runs)
	for _, c := range cells {
		k, _ := slices.BinarySearch(runs, c.run)
		i := (c.point-1)*g.runs + k
		if g.u[i] == nil {
			g.u[i] = slices.Repeat([]float64{math.NaN()}, len(g.columns))
		}
		if !math.IsNaN(g.u[i][c.column]) {
			return g.bad(1, "point %d, run %d has %q twice", c.point, c.run, g.columns[c.column])
		}
		g.u[i][c.column] = c.u
	}
	return nil
}

// numbers returns the different numbers of cells, rising.
func numbers(cells []cell, of func(cell) int) []int {
	seen := map[int]bool{}
	var list []int
	for _, c := range cells {
		if n := of(c); !seen[n] {
			seen[n], list = true, append(list, n)
		}
	}
	slices.SortFunc(list, cmp.Compare[int])
	return list
}

// settle finds what each column stands for in a drill.
func (g *given) settle(j *Job, d *sim.Drill) error {
	factors := draw.NewSampler(d).Factors(d)
	var labels []string
	for i := range factors {
		labels = append(labels, label(factors[i].Purpose, factors[i].Name, factors[i].N))
	}
	var mine []draw.Factor
	for _, column := range g.columns {
		i := slices.Index(labels, column)
		if i < 0 {
			err := &mistake.Input{What: fmt.Sprintf("%s:%d: nothing of the name %q is drawn in %s", g.path, g.line, column, j.Name), Cure: givenHint}
			if near := mistake.Nearest(column, labels); len(near) > 0 {
				err.Cure = "did you mean " + mistake.Quoted(near) + "?"
			}
			return err
		}
		mine = append(mine, factors[i])
	}
	g.places = draw.PlacesOf(mine)
	return nil
}

// of returns the numbers of a run of a point, both from 0 on.
func (g *given) of(point, run int) []float64 {
	if g.points == 1 {
		return g.u[run]
	}
	return g.u[point*g.runs+run]
}

// luckOf fills in the luck of a run of a point: run counts from the first of the
// point on.
func (p *Plan) luckOf(point, run int, s *draw.Sampler, l *sim.Luck) {
	from := p.startOf(point)
	if g := p.Job.given; g != nil {
		s.RunGiven(from.seed, from.first+run, g.places, g.of(point, run), l)
		return
	}
	s.Run(from.seed, from.first+run, l)
}

// draws returns the numbers of a run of a point, one for each factor: those
// given, else those of its streams.
func (p *Plan) draws(point, run int, factors []draw.Factor) []float64 {
	at := p.startOf(point)
	from := draw.StartOf(at.seed, uint64(at.first+run))
	us := make([]float64, len(factors))
	for i := range factors {
		us[i] = factors[i].Uniform(from)
	}
	if g := p.Job.given; g != nil {
		for i := range factors {
			if k, is := g.places.Of(&factors[i]); is {
				us[i] = g.of(point, run)[k]
			}
		}
	}
	return us
}
