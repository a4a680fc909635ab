package report

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"warmby/sim"
	"warmby/sim/stats"
)

// This file is the only place of the program that writes a time, a length, a
// share, an interval or a quantity for people.

// Precision is how exactly figures are written.
type Precision int

const (
	// People get whole minutes, the clock, "7 evenings in 10", no interval.
	People Precision = iota
	// Full has seconds, and the 95 % interval of what was found by many runs.
	Full
)

// Figure is a number with a meaning.
type Figure interface {
	Part
	figure()
}

// Site is where figures on the clock get the clock from, and what many runs of
// a drill are called.
type Site struct {
	Arrival time.Time // zero when the scenario has no date
	Many    string    // "evenings"
}

// SiteOf returns the site of a drill.
func SiteOf(d *sim.Drill) Site { return Site{d.Site.Arrival, occasions(d.Site.Arrival)} }

// occasions is what to call many runs of a drill: by the hour of arrival, as
// people say it.
func occasions(arrival time.Time) string {
	if arrival.IsZero() {
		return "runs"
	}
	switch hour := arrival.Hour(); {
	case hour >= 3 && hour < 10:
		return "mornings"
	case hour >= 12 && hour < 20:
		return "evenings"
	case hour >= 10 && hour < 12:
		return "days"
	}
	return "nights"
}

// Moment is a point in time of a drill. People read it on the clock where there
// is one, else since arrival.
type Moment struct {
	At      sim.Time
	Arrival time.Time
	// Came says that something has come by then: it is written in the minute by
	// which it had. What begins, targets and dark are written in the minute
	// that the clock shows then.
	Came bool
}

// Came returns the moment at which something has come.
func (s Site) Came(at sim.Time) Moment { return Moment{at, s.Arrival, true} }

// At returns the moment at which something begins, or a target.
func (s Site) At(at sim.Time) Moment { return Moment{at, s.Arrival, false} }

func (m Moment) Write(p Precision) string {
	switch {
	case m.At == sim.Never:
		return "never"
	case m.Arrival.IsZero():
		return Since(m.At).Write(p)
	case p == Full:
		return clock(m.Arrival, roundTo(m.At, sim.Second), "15:04:05")
	case m.Came:
		return clock(m.Arrival, sim.ByMinute(m.At), "15:04")
	}
	return clock(m.Arrival, m.At, "15:04")
}

// clock writes a moment on the clock, with the day when it is not that of the
// arrival. Days are those of the calendar at the site, however long they are.
func clock(arrival time.Time, at sim.Time, layout string) string {
	t := arrival.Add(time.Duration(at) * time.Millisecond)
	text := t.Format(layout)
	if days := day(t) - day(arrival); days != 0 {
		text += fmt.Sprintf(" %+d d", days)
	}
	return text
}

// day numbers the days of the calendar.
func day(t time.Time) int {
	y, m, d := t.Date()
	return int(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// Since is a moment counted from the arrival.
type Since sim.Time

func (s Since) Write(p Precision) string {
	if sim.Time(s) != sim.Never && p == People {
		s = Since(sim.ByMinute(sim.Time(s)))
	}
	return Length(s).Write(p)
}

// Length is how long something lasts: "1 h 17 min".
type Length sim.Time

func (l Length) Write(p Precision) string {
	if sim.Time(l) == sim.Never {
		return "never"
	}
	if p == People {
		switch whole := roundTo(sim.Time(l), sim.Minute); {
		case whole == 0 && l > 0:
			return "under 1 min"
		case whole == 0:
			return "0 min"
		default:
			return sim.Clock(whole)
		}
	}
	return sim.Clock(sim.Time(l))
}

// Stopwatch is a length or a time since arrival in a narrow column: "72:30",
// in minutes and seconds, and "73 min" for people.
type Stopwatch sim.Time

func (s Stopwatch) Write(p Precision) string {
	t := sim.Time(s)
	switch {
	case t == sim.Never:
		return "never"
	case p == People:
		return fmt.Sprintf("%d min", roundTo(t, sim.Minute)/sim.Minute)
	}
	sign := ""
	if t < 0 {
		sign, t = "-", -t
	}
	whole := roundTo(t, sim.Second) / sim.Second
	if whole == 0 {
		sign = ""
	}
	return fmt.Sprintf("%s%d:%02d", sign, whole/60, whole%60)
}

// Minutes is a moment since arrival as a mark on paper, "62": the whole minutes
// that a watch started on arrival shows then.
type Minutes sim.Time

func (m Minutes) Write(Precision) string {
	if sim.Time(m) == sim.Never {
		return "never"
	}
	return strconv.FormatInt(int64(sim.Time(m)/sim.Minute), 10)
}

// roundTo rounds to whole units, half of one away from 0.
func roundTo(t, unit sim.Time) sim.Time {
	if t < 0 {
		return -roundTo(-t, unit)
	}
	return (t + unit/2) / unit * unit
}

// By is a moment by which something has come in a share of the runs, with its
// interval: a quantile.
type By struct {
	stats.Quantile
	Site Site
}

func (b By) Write(p Precision) string {
	text := b.Site.Came(b.Value).Write(p)
	if p == People {
		return text
	}
	low, high := b.Site.Came(b.Low).Write(p), b.Site.Came(b.High).Write(p)
	switch {
	case b.LowOpen && b.HighOpen:
		return text + " (too few runs to bound it)"
	case b.LowOpen:
		return text + " (" + high + " at the latest)"
	case b.HighOpen:
		return text + " (" + low + " at the soonest)"
	}
	return text + " (" + low + " to " + high + ")"
}

// Share is in what share of the runs something is so, with its interval. Of
// says what the runs are called, "evenings"; without it only the numbers are
// written, for a column that says so.
type Share struct {
	stats.Share
	Of string
}

func (s Share) Write(p Precision) string {
	of := ""
	if s.Of != "" {
		of = " " + s.Of
	}
	if p == Full {
		return fmt.Sprintf("%d of %d%s (%s)", s.Count, s.Runs, of, percentRange(s.Share))
	}
	one := ""
	if s.Of != "" {
		one = " " + singular(s.Of)
	}
	few := s.Value < 0.5
	switch n := rounded(min(s.Value, 1-s.Value)); {
	case s.Count == 0:
		return "no" + orElse(one, "ne")
	case s.Count == s.Runs && one == "":
		return "all"
	case s.Count == s.Runs:
		return "every" + one
	case n == 0 && few:
		return "hardly any" + one
	case n == 0 && one == "":
		return "nearly all"
	case n == 0:
		return "nearly every" + one
	case n > 10 && few:
		return "1" + one + " in " + strconv.Itoa(n)
	case n > 10:
		return fmt.Sprintf("%d%s in %d", n-1, of, n)
	}
	inTen := int(math.Round(10 * s.Value))
	if inTen == 1 {
		return "1" + one + " in 10"
	}
	return fmt.Sprintf("%d%s in 10", inTen, of)
}

func orElse(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

func singular(many string) string { return many[:len(many)-1] }

// rounded is the number of runs that a share of up to a half is told by: one, or
// some, in 10, one in 20, 50 or 100. Below that nobody plans by the number: it is 0.
func rounded(share float64) int {
	if share > 0.05+1e-9 { // 95 in 100 must not become 10 in 10
		return 10
	}
	for _, n := range []int{20, 50, 100} {
		if share*float64(n) >= 0.75 {
			return n
		}
	}
	return 0
}

// percentRange writes the interval of a share: "81 to 85 %".
func percentRange(s stats.Share) string {
	if s.High < 0.02 || s.Low > 0.98 {
		return tenths(s.Low) + " to " + tenths(s.High) + " %"
	}
	return hundredths(s.Low) + " to " + hundredths(s.High) + " %"
}

// hundredths writes a share in percent without the sign: whole, unless it would
// read as none or all and is not.
func hundredths(v float64) string {
	text := fmt.Sprintf("%.0f", 100*v)
	if v > 0 && text == "0" || v < 1 && text == "100" {
		return tenths(v)
	}
	return text
}

// tenths is the same to a tenth of a percent.
func tenths(v float64) string {
	text := fmt.Sprintf("%.1f", 100*v)
	switch {
	case v > 0 && text == "0.0":
		return "<0.1"
	case v < 1 && text == "100.0":
		return ">99.9"
	}
	return text
}

// Percent is a share that was asked for or given, and has no interval.
type Percent float64

func (v Percent) Write(Precision) string { return hundredths(float64(v)) + " %" }

// Odds is how often something is asked to be so: "9 of 10 evenings".
type Odds struct {
	Value float64 // over 0 and up to 1
	Of    string
}

func (o Odds) Write(Precision) string {
	for _, of := range []float64{10, 4, 20, 100, 1000} {
		if n := o.Value * of; math.Abs(n-math.Round(n)) < 1e-9 {
			return fmt.Sprintf("%.0f of %.0f %s", n, of, o.Of)
		}
	}
	return fmt.Sprintf("%.4g of 100 %s", 100*o.Value, o.Of)
}

// Difference is how much sooner one thing is than another, on average, with
// its interval; below 0 it is later. In milliseconds.
type Difference struct{ stats.Mean }

func (d Difference) Write(p Precision) string {
	if !d.OK() {
		return "?"
	}
	text := soonerBy(millis(d.Value), p)
	switch {
	case p == People:
		return text
	case math.IsInf(d.Low, 0):
		return text + " (its interval cannot be told)"
	}
	return text + " (" + soonerRange(millis(d.Low), millis(d.High)) + ")"
}

func soonerBy(t sim.Time, p Precision) string {
	switch {
	case p == People && roundTo(t, sim.Minute) == 0:
		return "level"
	case t < 0:
		return Length(-t).Write(p) + " later"
	}
	return Length(t).Write(p) + " sooner"
}

// soonerRange writes an interval; the sign is said once where both ends have
// the same.
func soonerRange(low, high sim.Time) string {
	switch {
	case low < 0 && high < 0:
		return sim.Clock(-high) + " to " + sim.Clock(-low) + " later"
	case low < 0:
		return sim.Clock(-low) + " later to " + sim.Clock(high) + " sooner"
	}
	return sim.Clock(low) + " to " + sim.Clock(high)
}

// SoonerIn is how much sooner one thing has come than another in a share of the
// runs, with its interval; below 0 it is later.
type SoonerIn struct{ stats.QuantileGap }

func (g SoonerIn) Write(p Precision) string {
	text := soonerBy(g.Value, p)
	switch {
	case p == People:
		return text
	case g.LowOpen || g.HighOpen:
		return text + " (too few runs to bound it)"
	case g.Low == g.High:
		return text
	}
	return text + " (" + soonerRange(g.Low, g.High) + ")"
}

// Sooner is how much sooner one thing is than another where luck has no part;
// below 0 it is later.
type Sooner sim.Time

func (s Sooner) Write(p Precision) string { return soonerBy(sim.Time(s), p) }

// OnAverage is a mean of moments with its interval, on the clock where there is
// one.
type OnAverage struct {
	stats.Mean
	Site Site
}

func (m OnAverage) Write(p Precision) string {
	if !m.OK() {
		return "?"
	}
	text := m.Site.Came(m.Time()).Write(p)
	if p == People || m.Runs < 2 || m.SD == 0 {
		return text
	}
	return text + " (" + m.Site.Came(millis(m.Low)).Write(p) + " to " + m.Site.Came(millis(m.High)).Write(p) + ")"
}

// MoreOften is in how much larger a share of runs something is so, with its
// interval; below 0 it is less often. Of says what the runs are called.
type MoreOften struct {
	Value, Low, High float64 // shares
	Of               string
}

func (m MoreOften) Write(p Precision) string {
	word := "more"
	if m.Value < 0 {
		word = "fewer"
		m.Value, m.Low, m.High = -m.Value, -m.High, -m.Low
	}
	if p == Full {
		text := fmt.Sprintf("%.1f %% %s %s", 100*m.Value, word, m.Of)
		if m.Value == 0 {
			text = "as often"
		}
		if math.IsInf(m.Low, 0) || m.Low == m.High {
			return text
		}
		return text + fmt.Sprintf(" (%.1f to %.1f %%)", 100*m.Low, 100*m.High)
	}
	if n := rounded(m.Value); n != 10 {
		if n == 0 {
			return "hardly any " + word
		}
		return "1 " + singular(m.Of) + " in " + strconv.Itoa(n) + " " + word
	}
	tenths := int(math.Round(10 * m.Value))
	if tenths == 1 {
		return "1 " + singular(m.Of) + " in 10 " + word
	}
	return fmt.Sprintf("%d %s in 10 %s", tenths, m.Of, word)
}

// AtMost is by how many percent something is above another at most.
type AtMost float64

func (v AtMost) Write(Precision) string {
	if v < 10 {
		return fmt.Sprintf("%.1f %%", math.Ceil(10*float64(v))/10)
	}
	return fmt.Sprintf("%.0f %%", math.Ceil(float64(v)))
}

// UpTo is a length that something does not pass: it is rounded up.
type UpTo sim.Time

func (t UpTo) Write(p Precision) string {
	unit := sim.Second
	if p == People {
		unit = sim.Minute
	}
	return sim.Clock((sim.Time(t) + unit - 1) / unit * unit)
}

// FewerUpTo is in how many fewer runs something is so at most, rounded up. Of
// says what the runs are called.
type FewerUpTo struct {
	Value float64 // a share
	Of    string
}

func (f FewerUpTo) Write(p Precision) string {
	if p == Full {
		return fmt.Sprintf("%.1f %% of %s", math.Ceil(1000*f.Value)/10, f.Of)
	}
	for _, n := range []int{100, 50, 20} {
		if f.Value <= 1/float64(n) {
			return "1 " + singular(f.Of) + " in " + strconv.Itoa(n)
		}
	}
	if tenths := math.Ceil(10 * f.Value); tenths > 1 {
		return fmt.Sprintf("%.0f %s in 10", tenths, f.Of)
	}
	return "1 " + singular(f.Of) + " in 10"
}

// Grouped is a large count, with commas: "12,000".
type Grouped int64

func (n Grouped) Write(Precision) string {
	digits := strconv.FormatInt(int64(n), 10)
	for k := len(digits) - 3; k > 0 && digits[k-1] != '-'; k -= 3 {
		digits = digits[:k] + "," + digits[k:]
	}
	return digits
}

// Mean is an average of moments or lengths with its interval.
type Mean struct{ stats.Mean }

func (m Mean) Write(p Precision) string {
	if !m.OK() {
		return "?"
	}
	text := Length(millis(m.Value)).Write(p)
	switch {
	case p == People:
		return text
	case math.IsInf(m.Low, 0):
		return text + " (its interval cannot be told)"
	}
	return text + " (" + sim.Clock(millis(m.Low)) + " to " + sim.Clock(millis(m.High)) + ")"
}

// Won is how many minutes sooner something comes for each minute by which
// something else is shorter, with its interval.
type Won struct{ stats.Ratio }

func (w Won) Write(p Precision) string {
	switch {
	case !w.OK():
		return "not known"
	case p == People:
		return plain(w.Value, 1) + " min"
	case w.Runs < 2:
		return plain(w.Value, 2) + " min (one run only)"
	}
	return plain(w.Value, 2) + " min (" + plain(w.Low, 2) + " to " + plain(w.High, 2) + ")"
}

// Rank is a rank correlation, from -1 to 1, with its interval.
type Rank struct{ stats.Correlation }

func (r Rank) Write(p Precision) string {
	switch {
	case !r.OK():
		return "its length is not drawn"
	case p == People:
		return plain(r.Value, 1)
	}
	return plain(r.Value, 2) + " (" + plain(r.Low, 2) + " to " + plain(r.High, 2) + ")"
}

// OfVariance is a share of the variance, with its interval.
type OfVariance struct{ stats.VarianceShare }

func (v OfVariance) Write(p Precision) string {
	switch {
	case !v.OK():
		return "not known"
	case p == People:
		return hundredths(v.Value) + " %"
	}
	return tenths(v.Value) + " % (" + tenths(v.Low) + " to " + tenths(v.High) + " %)"
}

// millis returns a mean in whole milliseconds.
func millis(ms float64) sim.Time { return sim.Time(math.Round(ms)) }

// Number is a count of things that the words beside it name.
type Number int

func (n Number) Write(Precision) string { return strconv.Itoa(int(n)) }

// Count is a number of things with their name: "1 evening", "3 evenings".
type Count struct {
	N    int
	What string // one of them
}

func (c Count) Write(Precision) string {
	if c.N == 1 {
		return "1 " + c.What
	}
	return strconv.Itoa(c.N) + " " + c.What + "s"
}

// Counted writes a number of things where there is no report: in a message.
func Counted(n int, thing string) string { return Count{N: n, What: thing}.Write(Full) }

// Quantity is a measured value with its unit, and its interval where it has
// one.
type Quantity struct {
	Value     float64
	Low, High *float64 // nil where that end is not known, both where there is no interval
	Unit      string   // "Wh/m2", "kg", "L", "C", "m/s"; "" for an index
	Decimals  int      // in full; people get whole numbers, or one decimal below 10 of kg and L
}

func (q Quantity) Write(p Precision) string {
	digits := q.Decimals
	if p == People {
		digits = min(digits, peoplesDigits(q.Unit, q.Value))
	}
	text := plain(q.Value, digits)
	if p == Full && (q.Low != nil || q.High != nil) {
		text += " (" + end(q.Low, digits) + " to " + end(q.High, digits) + ")"
	}
	if q.Unit != "" {
		text += " " + q.Unit
	}
	return text
}

func peoplesDigits(unit string, value float64) int {
	if (unit == "kg" || unit == "L") && math.Abs(value) < 10 {
		return 1
	}
	return 0
}

func end(v *float64, digits int) string {
	if v == nil {
		return "?"
	}
	return plain(*v, digits)
}

// plain writes a number with so many decimals, and never "-0".
func plain(v float64, digits int) string {
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if n, err := strconv.ParseFloat(text, 64); err == nil && n == 0 {
		text = strconv.FormatFloat(0, 'f', digits, 64)
	}
	return text
}

// Date is the day and the clock of the arrival, with the offset in full.
type Date time.Time

func (d Date) Write(p Precision) string {
	if p == Full {
		return time.Time(d).Format("Mon 2 Jan 2006 15:04 -07:00")
	}
	return time.Time(d).Format("Mon 2 Jan 15:04")
}

func (Moment) figure()     {}
func (Since) figure()      {}
func (Length) figure()     {}
func (Stopwatch) figure()  {}
func (Minutes) figure()    {}
func (By) figure()         {}
func (Share) figure()      {}
func (Percent) figure()    {}
func (Odds) figure()       {}
func (Difference) figure() {}
func (Mean) figure()       {}
func (MoreOften) figure()  {}
func (Sooner) figure()     {}
func (SoonerIn) figure()   {}
func (OnAverage) figure()  {}
func (AtMost) figure()     {}
func (UpTo) figure()       {}
func (FewerUpTo) figure()  {}
func (Grouped) figure()    {}
func (Number) figure()     {}
func (Count) figure()      {}
func (Quantity) figure()   {}
func (Date) figure()       {}
func (Won) figure()        {}
func (Rank) figure()       {}
func (OfVariance) figure() {}
