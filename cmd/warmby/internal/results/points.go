package results

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
)

// How several --vary go together.
const (
	Grid       = "grid"
	OneAtATime = "one-at-a-time"
)

// points returns the keys that are varied and their values at each point; one
// point without keys when nothing is varied.
func (q *Question) points() (keys []string, points [][]string, err error) {
	if q.Design != "" {
		keys, points, err = readDesign(q.Design)
		if err != nil || q.WhatIf == "" {
			return keys, points, err
		}
		if slices.Contains(keys, whatIfKey) {
			return nil, nil, &mistake.Usage{What: fmt.Sprintf("--what-if, and a column %q in %s", whatIfKey, q.Design), Cure: "leave one of them out"}
		}
		for i := range points {
			points[i] = append([]string{q.WhatIf}, points[i]...)
		}
		return append([]string{whatIfKey}, keys...), points, nil
	}
	var values [][]string
	if q.WhatIf != "" {
		keys, values = append(keys, whatIfKey), append(values, []string{q.WhatIf})
	}
	for _, v := range q.Vary {
		key, text, ok := strings.Cut(v, "=")
		if key = strings.TrimSpace(key); !ok || key == "" {
			return nil, nil, &mistake.Usage{What: fmt.Sprintf("--vary expects KEY=VALUES, got %q", v), Cure: "such as people=4..10"}
		}
		if slices.Contains(keys, key) {
			return nil, nil, &mistake.Usage{What: fmt.Sprintf("--vary %s is given twice", key), Cure: "put its values in one list, with commas between"}
		}
		list, err := scenarios.Values(text)
		if err != nil {
			return nil, nil, varyError("--vary", fmt.Errorf("%s: %w", key, err))
		}
		keys, values = append(keys, key), append(values, list)
	}
	if q.How == OneAtATime && len(keys) > 1 {
		points = oneAtATime(values)
	} else {
		points, err = grid(values)
	}
	return keys, points, err
}

// grid puts every value with every other; the last key varies fastest.
func grid(values [][]string) ([][]string, error) {
	points := [][]string{{}}
	for _, list := range values {
		if len(points)*len(list) > MostPoints {
			return nil, &mistake.Usage{What: fmt.Sprintf("--vary asks for more than %d points", MostPoints), Cure: "give fewer values, or --vary-how one-at-a-time"}
		}
		var next [][]string
		for _, p := range points {
			for _, v := range list {
				next = append(next, append(slices.Clone(p), v))
			}
		}
		points = next
	}
	return points, nil
}

// oneAtATime is the file as it is, and then each value with all else as it is.
func oneAtATime(values [][]string) [][]string {
	points := [][]string{make([]string, len(values))}
	for i, list := range values {
		for _, v := range list {
			p := make([]string, len(values))
			p[i] = v
			points = append(points, p)
		}
	}
	return points
}

// MostPoints is how many points a batch may have: enough for the variance
// shares of 40 factors from 4,096 points, which take 42 times as many.
const MostPoints = 250_000

// maxDesign is how large a design may be, in bytes.
const maxDesign = 128 << 20

// readDesign reads points from a CSV file: a column for each key, a row for
// each point; an empty cell leaves the key as it is in the scenario.
func readDesign(path string) (keys []string, points [][]string, err error) {
	data, err := readAtMost(path, maxDesign, "a design")
	if err != nil {
		return nil, nil, err
	}
	bad := func(line int, format string, args ...any) error {
		return &mistake.Input{What: fmt.Sprintf("%s:%d: %s", path, line, fmt.Sprintf(format, args...)), Cure: "a design has a column for each key and a row for each point: people,weather.air"}
	}
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\uFEFF"))))
	r.TrimLeadingSpace = true
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var wrong *csv.ParseError
		if errors.As(err, &wrong) {
			return nil, nil, bad(wrong.Line, "%v", wrong.Err)
		}
		if err != nil {
			return nil, nil, fmt.Errorf("cannot read %s: %w", path, mistake.Reason(err))
		}
		line, _ := r.FieldPos(0)
		for i := range row {
			row[i] = strings.TrimSpace(row[i])
		}
		if keys == nil {
			for i, key := range row {
				if key == "" || slices.Contains(row[:i], key) {
					return nil, nil, bad(line, "column %d: the key %q is empty or stands twice", i+1, key)
				}
			}
			keys = row
			continue
		}
		if points = append(points, row); len(points) > MostPoints {
			return nil, nil, bad(line, "more than %d points", MostPoints)
		}
	}
	if len(points) == 0 {
		return nil, nil, bad(1, "the design has no points")
	}
	return keys, points, nil
}
