package compare

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/stats"
)

// Well is in how many runs of a drill all goes well.
type Well struct {
	// Targets is in what share of the runs every milestone with a target is
	// reached in time; nil when none has a target.
	Targets *stats.Share
	// NobodyCold is in what share of the runs nobody passes the cold limit; nil
	// without an account of cold.
	NobodyCold *stats.Share
	// All is both; where one of the two is nil it is the other, and nil when
	// both are.
	All *stats.Share

	in    []bool // whether all is well, by run
	met   []bool // whether every target is met
	warm  []bool // whether nobody passes the limit, in the runs with an account
	read  reading
	looks stats.Looks
}

// HowWell tells of drills that were played, with their accounts of cold by
// [HowCold], in how many runs all is well. Where there is an account, the runs
// it was kept in are counted for All, and a run that came to a stop is not well.
func HowWell(played []*Played, accounts []*Cold) []Well {
	list := make([]Well, len(played))
	for i, p := range played {
		list[i] = howWell(p, accounts[i])
	}
	return list
}

// AllIn tells of each run whether all is well, NobodyColdIn whether nobody passes the
// cold limit, TargetsIn whether every target is met; nil where nobody asks for it.
func (w *Well) AllIn() []bool        { return askedFor(w.All, w.in) }
func (w *Well) NobodyColdIn() []bool { return askedFor(w.NobodyCold, w.warm) }
func (w *Well) TargetsIn() []bool    { return askedFor(w.Targets, w.met) }

func askedFor(share *stats.Share, in []bool) []bool {
	if share == nil {
		return nil
	}
	return in
}

func howWell(p *Played, account *Cold) (w Well) {
	inTime, targets := p.inTime()
	w.read, w.looks = p.reading(), p.Looks
	if targets {
		w.Targets = w.shareOf(inTime)
	}
	w.in, w.met = inTime, inTime
	if account != nil {
		w.NobodyCold = w.share(int64(len(account.Peaks)-account.Over), int64(len(account.Peaks)))
		w.in, w.warm = make([]bool, len(account.warm)), account.warm
		for run, warm := range account.warm {
			w.in[run] = warm && inTime[run]
		}
	}
	if targets || account != nil {
		w.All = w.shareOf(w.in)
	}
	return w
}

// inTime tells of each run whether all targets are met, and whether there are
// any.
func (p *Played) inTime() (in []bool, targets bool) {
	in = make([]bool, len(p.Times[0]))
	for run := range in {
		in[run] = true
	}
	for m, milestone := range p.Drill.Milestones {
		if milestone.By == sim.Never {
			continue
		}
		targets = true
		for run, at := range p.Times[m] {
			in[run] = in[run] && milestone.Met(at)
		}
	}
	return in, targets
}

// allMet reports whether every milestone with a target is reached in time.
func allMet(d *sim.Drill, at []sim.Time) bool {
	for m, milestone := range d.Milestones {
		if milestone.By != sim.Never && !milestone.Met(at[m]) {
			return false
		}
	}
	return true
}

func (w *Well) shareOf(in []bool) *stats.Share { return w.share(stats.Count(in), int64(len(in))) }

func (w *Well) share(count, runs int64) *stats.Share {
	s := stats.ShareAt(count, runs, w.looks.Level(stats.Level, runs))
	return &s
}

// MostOftenWell returns the drills in which all is well most often, as
// [mostOften] tells it; nil when nobody asks for anything, or all is never well.
func MostOftenWell(list []Well) []int {
	var in [][]bool
	for i := range list {
		if list[i].All == nil {
			return nil
		}
		in = append(in, list[i].in)
	}
	return mostOften(in, list[0].read, list[0].looks)
}

// MostOftenInTime returns the drills that reach a milestone in time most often,
// as [mostOften] tells it; nil when it has no target, or is never in time.
func MostOftenInTime(played []*Played, m int) []int {
	var in [][]bool
	for _, p := range played {
		milestone := &p.Drill.Milestones[m]
		if milestone.By == sim.Never {
			return nil
		}
		runs := make([]bool, len(p.Times[m]))
		for run, at := range p.Times[m] {
			runs[run] = milestone.Met(at)
		}
		in = append(in, runs)
	}
	return mostOften(in, played[0].reading(), played[0].Looks)
}

// mostOften returns, of rows that say of each run whether it went well, the one
// with most such runs, of equals the first, and then those that cannot be told
// from it. It returns nil when no run went well.
func mostOften(in [][]bool, read reading, looks stats.Looks) []int {
	rows, well := make([][]sim.Time, len(in)), false
	for i, row := range in {
		well = well || slices.Contains(row, true)
		rows[i] = read.sums(len(row), func(run int) sim.Time {
			if row[run] {
				return 0
			}
			return 1
		})
	}
	if !well {
		return nil
	}
	return least(rows, looks)
}

// levelAmong tells which others of n cannot be told from the best one; the
// differences of all of them are one family.
func levelAmong(n, best int, looks stats.Looks, pair func(i, j int) *stats.Paired) []bool {
	level := make([]bool, n)
	var family []*stats.Paired
	var members [][2]int
	for i := range n {
		for j := i + 1; j < n; j++ {
			family, members = append(family, pair(i, j)), append(members, [2]int{i, j})
		}
	}
	for k, d := range looks.Simultaneous(family) {
		for i, one := range members[k] {
			if one == best {
				level[members[k][1-i]] = d.Ahead() == 0
			}
		}
	}
	return level
}

// SoonestOnAverage returns the drill that reaches a milestone soonest on average,
// and then those that cannot be told from it, as [MostOftenInTime] does; nil when
// one does not always get there.
func SoonestOnAverage(played []*Played, m int) []int {
	rows := make([][]sim.Time, len(played))
	for i, p := range played {
		if slices.Contains(p.Times[m], sim.Never) {
			return nil
		}
		rows[i] = p.reading().sums(len(p.Times[m]), func(run int) sim.Time { return p.Times[m][run] })
	}
	return least(rows, played[0].Looks)
}

// least returns the row with the least sum, of equals the first, and then those
// that cannot be told from it, by their sums. The differences of all rows, place
// by place, are one family.
func least(rows [][]sim.Time, looks stats.Looks) []int {
	totals := make([]sim.Time, len(rows))
	for i, row := range rows {
		for _, v := range row {
			totals[i] += v
		}
	}
	best := slices.Index(totals, slices.Min(totals))
	out := []int{best}
	for i, level := range levelAmong(len(rows), best, looks, func(i, j int) *stats.Paired { return Pair(rows[i], rows[j]) }) {
		if level {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out[1:], func(a, b int) int { return cmp.Compare(totals[a], totals[b]) })
	return out
}
