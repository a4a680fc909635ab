package report

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/rehearse"
	"warmby/sim/stats"
)

// seldomCold is the share of evenings below which a person is not named in the
// lead for passing the limit of cold.
const seldomCold = 0.05

// coldLine says who gets too cold, and how often.
func (r Rehearsal) coldLine() Sentence {
	if r.Cold == nil {
		return r.coldLineOfOne()
	}
	type often struct{ who, count int }
	var over []often
	runs := len(r.Cold.Peaks)
	for who, count := range r.Cold.OverBy {
		if float64(count) >= seldomCold*float64(runs) {
			over = append(over, often{who, count})
		}
	}
	slices.SortStableFunc(over, func(a, b often) int { return cmp.Compare(b.count, a.count) })
	of := r.site().Many
	switch {
	case r.Cold.Over == 0:
		return Say("Cold: nobody passes the limit in any of {} {}.", runs, of)
	case over == nil:
		return Say("Cold: somebody over the limit in {}.", Share{r.Cold.OverShare(), of})
	}
	for n := min(2, len(over)); ; n-- { // in one line, with fewer names if need be
		var parts []Sentence
		for i, o := range over[:n] {
			s, limit := Share{Share: stats.ShareOf(int64(o.count), int64(runs))}, ""
			if i == 0 {
				s.Of, limit = of, "over the limit "
			}
			parts = append(parts, Say("{} {}in {}", r.Drill.People[o.who].Name, limit, s))
		}
		if more := len(over) - n; more > 0 {
			parts = append(parts, Say("{} more less often", more))
		}
		if says := sentenceEnd(Say("Cold: {}", Join(parts, ", "))); n == 1 || lines(says) == 1 {
			return says
		}
	}
}

// coldLineOfOne says who gets too cold in the drill as played.
func (r Rehearsal) coldLineOfOne() Sentence {
	var over []string
	known := false
	for i := range r.Accounts {
		known = known || r.Accounts[i].Why == ""
		if r.Accounts[i].Why == "" && r.Accounts[i].PassedAt != sim.Never {
			over = append(over, r.Accounts[i].Name)
		}
	}
	switch {
	case !known:
		return Say("Cold: no account (the file lacks weather or clothing).")
	case over == nil:
		return Say("Cold: nobody passes the limit in this drill.")
	case len(over) > 3:
		return Say("Cold: over the limit: {} and {} more.", over[0], len(over)-1)
	}
	return Say("Cold: over the limit: {}.", Named(over))
}

// cold tells how cold each person gets, when and why, and who should be relieved
// by when. It never says that somebody is safe.
func (r Rehearsal) cold() []Block {
	t := Table{Caption: "How cold each person gets in the drill as played", Columns: []Column{
		{}, {"most heat lost", true}, {"at", true}, {Head: "against the limit"}, {Head: "from"}, {"longest outdoors", true}, {Head: "schedule allows"}, {Head: "worst wind chill"}}}
	var list []Block
	for i := range r.Accounts {
		p := &r.Accounts[i]
		if p.Why != "" {
			list = append(list, Text{Item: true, Says: Say("{}: {}.", p.Name, p.Why)})
			continue
		}
		row := Cells(p.Name, heatLost(p.Peak, 0), Stopwatch(p.PeakAt), againstLimit(p.Verdict), "", "none", "", "")
		if p.PassedAt != sim.Never {
			row[4] = Say("{}", Stopwatch(p.PassedAt))
		}
		if p.Longest >= 0 {
			o := &p.Outings[p.Longest]
			row[5], row[6] = Say("{}", Stopwatch(o.Length())), allowance(o.Allowed)
		}
		if p.Chill.OK() {
			row[7] = Say("{}", Quantity{Value: p.Chill.X})
		}
		t.Rows = append(t.Rows, row)
	}
	if t.Rows != nil {
		list = append([]Block{t}, list...)
	}
	for _, s := range r.coldSentences() {
		list = append(list, Text{Item: true, Says: s})
	}
	return append(list, r.coldOdds()...)
}

// coldOdds tells who passes the limit in how many of the evenings.
func (r Rehearsal) coldOdds() []Block {
	if r.Cold == nil {
		return nil
	}
	runs := int64(len(r.Cold.Peaks))
	var parts []Sentence
	for who, count := range r.Cold.OverBy {
		if count > 0 {
			parts = append(parts, Say("{} {}", r.Drill.People[who].Name, Share{Share: stats.ShareOf(int64(count), runs)}))
		}
	}
	s := Say("In drawn {} somebody passes the limit in {}", r.site().Many, Share{Share: r.Cold.OverShare()})
	if parts != nil {
		s = Say("{}: {}", s, Join(parts, ", "))
	}
	return []Block{Text{Item: true, Says: sentenceEnd(s)}}
}

func heatLost(wh float64, decimals int) Quantity {
	return Quantity{Value: wh, Unit: "Wh/m2", Decimals: decimals}
}

// againstLimit writes where somebody stands against the limit.
func againstLimit(v cold.Verdict) string {
	switch v {
	case cold.Within:
		return "within"
	case cold.Near:
		return "near"
	case cold.Over:
		return "over"
	case cold.FarOver:
		return "far over"
	}
	return "no account"
}

// allowance writes a cell of the work/warm-up schedule.
func allowance(a cold.Allowance) Sentence {
	switch {
	case !a.OK():
		return Say("not in the table")
	case a.Stop:
		return Say("no work but emergencies")
	case a.Normal():
		return Say("normal breaks")
	}
	return Say("{} at a time", Length(a.Most))
}

// coldSentences says who is coldest and why, who should be relieved, and what
// the weather does to bare skin.
func (r Rehearsal) coldSentences() (out []Sentence) {
	worst := -1
	for i := range r.Accounts {
		if r.Accounts[i].Why == "" && (worst < 0 || r.Accounts[i].Peak > r.Accounts[worst].Peak) {
			worst = i
		}
	}
	if worst < 0 {
		return nil
	}
	p := &r.Accounts[worst]
	out = append(out, Say("Coldest: {}, {} of {} at {}, {}.", p.Name, Quantity{Value: p.Peak, Decimals: 1}, heatLost(cold.HeatLimit, 0), Since(p.PeakAt), r.losses(p)))
	for _, i := range r.coldestFirst() {
		if p := &r.Accounts[i]; i != worst && p.Verdict > cold.Within {
			out = append(out, Say("{}: {}, {} ({} to {} with a fifth more or less effort), {}.", p.Name, againstLimit(p.Verdict)+" the limit",
				heatLost(p.Peak, 1), Quantity{Value: p.Least, Decimals: 1}, Quantity{Value: p.Most, Decimals: 1}, r.losses(p)))
		}
	}
	for _, one := range cold.Reliefs(r.Accounts) {
		who, doing := r.Accounts[one.Person].Name, r.doing(one.Doing)
		if one.BySchedule {
			out = append(out, Say("{}: take in by {} ({}): the published work/warm-up schedule asks for a break then.", who, Since(one.By), doing))
			continue
		}
		if one.After {
			out = append(out, Say("{} is still losing heat at the end ({}) and would reach the limit at {}.", who, doing, Since(one.By)))
			continue
		}
		out = append(out, Say("{}: relieve or take in by {} ({}): the limit of {} is reached then.", who, Since(one.By), doing, heatLost(cold.HeatLimit, 0)))
	}
	out = append(out, r.bareSkin()...)
	for i := range r.Accounts {
		for k := range r.Accounts[i].Outings {
			if o := &r.Accounts[i].Outings[k]; o.TooLong() {
				out = append(out, Say("{} is outdoors for {} from {} on; the published work/warm-up schedule says {}.",
					r.Accounts[i].Name, Length(o.Length()), Since(o.From), allowance(o.Allowed)))
			}
		}
	}
	return out
}

// bareSkin says what the weather does to bare skin and bare hands.
func (r Rehearsal) bareSkin() (out []Sentence) {
	if p := chilliest(r.Accounts); p != nil {
		s := Say("Bare skin: wind chill down to {} from {} on; {}", Quantity{Value: p.Chill.X}, Since(p.ChillAt), p.Hazard.String())
		if p.Frostbite.OK() {
			after := "after"
			if p.Frostbite.Under {
				after = "in less than"
			}
			s = Say("{}; by formula a cheek {} {}", s, after, Quantity{Value: p.Frostbite.X, Unit: "min"})
		}
		out = append(out, sentenceEnd(s))
	}
	for _, w := range cold.BareWorks(r.Timeline) {
		out = append(out, Say("Bare hands: {} keeps somebody at it for {} in air of {}; a published rule gives bare hands {}.",
			quote(r.Drill.Tasks[w.Task].Name), Length(w.Length), Quantity{Value: w.Air, Unit: "C"}, Quantity{Value: w.Allowed, Unit: "min"}))
	}
	return out
}

// chilliest returns the person who meets the worst wind chill.
func chilliest(people []cold.Person) *cold.Person {
	var worst *cold.Person
	for i := range people {
		if p := &people[i]; p.Chill.OK() && (worst == nil || p.Chill.X < worst.Chill.X) {
			worst = p
		}
	}
	return worst
}

// loss is heat lost while about one thing.
type loss struct {
	doing string
	wh    float64
	time  sim.Time
}

// losses says where a person lost the heat of the peak: the three greatest
// losses by what the person was about.
func (r Rehearsal) losses(p *cold.Person) Sentence {
	list := r.lossesOf(p)
	if len(list) == 0 {
		return Say("without losing any")
	}
	var parts []Sentence
	for _, l := range list[:min(3, len(list))] {
		parts = append(parts, Say("{} {} for {}", heatLost(l.wh, 1), l.doing, Length(l.time)))
	}
	return Say("lost mostly as follows: {}", Join(parts, ", "))
}

// lossesOf adds up what a person lost of the heat of the peak, by what the person
// was about, since the debt was last nil; the greatest loss first.
func (r Rehearsal) lossesOf(p *cold.Person) (list []loss) {
	for _, e := range p.Ledger {
		if e.To > p.PeakAt && e.From >= p.PeakAt {
			break
		}
		if e.Debt == 0 {
			list = list[:0]
			continue
		}
		if e.S >= 0 {
			continue
		}
		doing := r.doing(e)
		at := slices.IndexFunc(list, func(l loss) bool { return l.doing == doing })
		if at < 0 {
			list, at = append(list, loss{doing: doing}), len(list)
		}
		list[at].wh -= e.S * (e.To - e.From).Seconds() / 3600
		list[at].time += e.To - e.From
	}
	slices.SortStableFunc(list, func(a, b loss) int { return cmp.Compare(b.wh, a.wh) })
	return list
}

// doing says what a person is about in an entry of the account.
func (r Rehearsal) doing(e cold.Entry) string {
	switch e.What {
	case sim.Watching:
		return "on lookout " + quote(r.Drill.Lookouts[e.Lookout].Name)
	case sim.Walking:
		return "walking"
	case sim.Working:
		return "on " + quote(r.Drill.Tasks[e.Task].Name)
	case sim.Ready:
		return "waiting"
	}
	if e.Indoors {
		return "free in " + quote(r.Drill.Shelters[e.Shelter].Name)
	}
	return "free outdoors"
}

// reliefs proposes for each lookout the longest interval that keeps all who
// stand there within the limit.
func (r Rehearsal) reliefs() (list []Block) {
	names := func(who []int) string {
		var out []string
		for _, i := range who {
			out = append(out, r.Accounts[i].Name)
		}
		return Named(out)
	}
	for _, one := range r.Reliefs {
		l := &r.Drill.Lookouts[one.Lookout]
		now := Say("keeps all who stand there within the limit of {}", heatLost(cold.HeatLimit, 0))
		if one.Over != nil {
			now = Say("takes {} over the limit of {}", names(one.Over), heatLost(cold.HeatLimit, 0))
		}
		if one.Others != nil {
			now = Say("{} (passed without standing there by {})", now, names(one.Others))
		}
		proposal := Say("none from {} to {} keeps all of them within it", Length(rehearse.ReliefStep), Length(rehearse.ReliefLongest))
		if one.Longest > 0 {
			proposal = Say("the longest that keeps all who stand there within it is {} (tried in steps of {} up to {})",
				Length(one.Longest), Length(rehearse.ReliefStep), Length(rehearse.ReliefLongest))
		}
		if one.Most < rehearse.ReliefLongest {
			proposal = Say("{}, for the published work/warm-up schedule allows no more than {}", proposal, Length(one.Most))
		}
		list = append(list, Text{Item: true, Says: Say("{}: relief every {} {}; {}.", l.Name, Length(l.Relief), now, proposal)})
	}
	return list
}
