// Package document writes answers as JSON, for programs.
//
// It is a contract: a thing has one shape wherever it stands, a name one
// meaning, and [Fields] tells every name with its unit. Names end in their unit.
// Fields may be added; none is renamed or changes its meaning without a new
// schema_version.
package document

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"warmby/sim"
	"warmby/sim/stats"
)

// Write writes a document.
func Write(w io.Writer, document any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(document)
}

// Seconds is a moment since arrival, or a length: a number with three decimals;
// null for never.
type Seconds sim.Time

// MarshalJSON writes the milliseconds exactly.
func (s Seconds) MarshalJSON() ([]byte, error) {
	if sim.Time(s) == sim.Never {
		return []byte("null"), nil
	}
	sign, ms := "", int64(s)
	if ms < 0 {
		sign, ms = "-", -ms
	}
	return fmt.Appendf(nil, "%s%d.%03d", sign, ms/1000, ms%1000), nil
}

// UnmarshalJSON reads what MarshalJSON writes.
func (s *Seconds) UnmarshalJSON(text []byte) error {
	var v *float64
	if err := json.Unmarshal(text, &v); err != nil {
		return err
	}
	if v == nil {
		*s = Seconds(sim.Never)
		return nil
	}
	*s = Seconds(math.Round(*v * 1000))
	return nil
}

// Interval is the 95 % interval of a value; an end that so few runs cannot tell
// is null.
type Interval [2]*Seconds

// Head is how every document begins.
type Head struct {
	SchemaVersion int    `json:"schema_version"`
	Scenario      string `json:"scenario"`
}

// IntervalOf returns an interval of milliseconds; null for one that cannot be told.
func IntervalOf(low, high float64) *Interval {
	if math.IsInf(low, 0) || math.IsInf(high, 0) {
		return nil
	}
	l, h := Seconds(WholeMillis(low)), Seconds(WholeMillis(high))
	return &Interval{&l, &h}
}

// Difference is how much sooner one thing is than another, on average.
type Difference struct {
	Sooner Seconds   `json:"sooner_s"`       // below 0 later; null where one of the two is not always reached
	CI95   *Interval `json:"ci95_s"`         // null without luck
	SD     *Seconds  `json:"sd_s,omitempty"` // of means only
	Why    string    `json:"why,omitempty"`
}

// DifferenceOf returns how much sooner the first is than the second, from the mean
// of the first less the second.
func DifferenceOf(m stats.Mean) Difference {
	sooner, ci := Mean(m.Negated())
	return Difference{sooner, ci, deviation(m), m.Why}
}

// ShareGap is in how much larger a share of the runs one thing is so than
// another.
type ShareGap struct {
	Share float64    `json:"share"` // below 0 it is less often so
	CI95  [2]float64 `json:"ci95"`
	Runs  int64      `json:"runs"`
}

// Quantile is a moment by which something has come in a share of the runs.
func Quantile(q stats.Quantile) (Seconds, Interval) {
	var in Interval
	if !q.LowOpen {
		low := Seconds(q.Low)
		in[0] = &low
	}
	if !q.HighOpen {
		high := Seconds(q.High)
		in[1] = &high
	}
	return Seconds(q.Value), in
}

// Share is in what share of some runs something is so.
type Share struct {
	Share float64     `json:"share"`
	CI95  *[2]float64 `json:"ci95"` // null without luck; Why says so then
	Count int64       `json:"count"`
	Runs  int64       `json:"runs"`
	Why   string      `json:"why,omitempty"`
}

// ShareOf returns a share in its shape, with six decimals, so that the last
// bits of a processor do not show.
func ShareOf(s stats.Share) Share {
	return Share{Share: Decimals(s.Value), CI95: &[2]float64{Decimals(s.Low), Decimals(s.High)}, Count: s.Count, Runs: s.Runs}
}

// WithoutLuck returns a share of the one time that a drill was played with usual
// values, which is 0 or 1, and why it has no interval.
func WithoutLuck(s stats.Share, why string) Share {
	return Share{Share: Decimals(s.Value), Count: s.Count, Runs: s.Runs, Why: why}
}

// Decimals keeps six, so that the last bits of a processor do not show.
func Decimals(x float64) float64 { return math.Round(x*1e6) / 1e6 }
