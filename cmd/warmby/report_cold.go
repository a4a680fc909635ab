package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
)

// coldText writes how cold each person gets, when and why, and who should be
// relieved by when. It never says that somebody is safe.
func coldText(tl *sim.Timeline, people []cold.Person, width int) string {
	rows := [][]string{
		{"", "most heat", "", "left to", "longest", "schedule", "worst wind"},
		{"", "lost", "at", "the limit", "outdoors", "allows", "chill"},
	}
	headings := len(rows)
	var none []string
	for i := range people {
		p := &people[i]
		if p.Why != "" {
			none = append(none, fmt.Sprintf("%s: %s.", p.Name, p.Why))
			continue
		}
		out, allowed := "none", ""
		if p.Longest >= 0 {
			o := &p.Outings[p.Longest]
			out, allowed = minutes(o.Length()), allowanceText(o.Allowed)
		}
		chill := ""
		if p.Chill.OK() {
			chill = fmt.Sprintf("%.0f", p.Chill.X)
		}
		rows = append(rows, []string{p.Name, fmt.Sprintf("%.0f Wh/m2", p.Peak), short(p.PeakAt), fmt.Sprintf("%.0f Wh/m2", p.Margin()), out, allowed, chill})
	}
	var b strings.Builder
	if len(rows) > headings {
		b.WriteString(table("  ", rows, 1, 2, 3, 4))
	}
	for _, n := range none {
		b.WriteString(wrap(n, width, "  ", "    "))
	}
	for _, s := range coldSentences(tl, people) {
		b.WriteString(wrap(s, width, "  ", "  "))
	}
	return b.String()
}

// allowanceText writes a cell of the work/warm-up schedule.
func allowanceText(a cold.Allowance) string {
	switch {
	case !a.OK():
		return "not in the table"
	case a.Stop:
		return "no work but emergencies"
	case a.Normal():
		return "normal breaks"
	}
	return minutes(a.Most) + " at a time"
}

// coldSentences says in words who is coldest and why, who should be relieved,
// and what the weather does to bare skin.
func coldSentences(tl *sim.Timeline, people []cold.Person) []string {
	var out []string
	worst := -1
	for i := range people {
		if people[i].Why == "" && (worst < 0 || people[i].Peak > people[worst].Peak) {
			worst = i
		}
	}
	if worst < 0 {
		return out
	}
	p := &people[worst]
	out = append(out, fmt.Sprintf("Coldest: %s, %.1f of %d Wh/m2 at %s, %s.", p.Name, p.Peak, cold.HeatLimit, sim.Clock(p.PeakAt), lossText(tl, p)))
	for _, r := range cold.Reliefs(people) {
		who, doing := people[r.Person].Name, entryText(tl, r.Doing)
		if r.After {
			out = append(out, fmt.Sprintf("%s is still losing heat at the end (%s) and would reach the limit at %s.", who, doing, sim.Clock(r.By)))
			continue
		}
		out = append(out, fmt.Sprintf("%s should be relieved or taken in by %s (%s): the limit of %d Wh/m2 is reached then.", who, sim.Clock(r.By), doing, cold.HeatLimit))
	}
	if p := chilliest(people); p != nil {
		s := fmt.Sprintf("Bare skin: wind chill down to %.0f from %s on; %s.", p.Chill.X, sim.Clock(p.ChillAt), p.Hazard)
		if p.Frostbite.OK() {
			s = strings.TrimSuffix(s, ".") + fmt.Sprintf("; by formula a cheek after %.0f min.", p.Frostbite.X)
		}
		out = append(out, s)
	}
	for _, w := range cold.BareWorks(tl) {
		out = append(out, fmt.Sprintf("Bare hands: %q keeps somebody at it for %s in air of %.0f C; a published rule gives bare hands %.0f min.",
			tl.Drill.Tasks[w.Task].Name, sim.Clock(w.Length), w.Air, w.Allowed))
	}
	for i := range people {
		for k := range people[i].Outings {
			if o := &people[i].Outings[k]; o.TooLong() {
				out = append(out, fmt.Sprintf("%s is outdoors for %s from %s on; the published work/warm-up schedule says %s.",
					people[i].Name, sim.Clock(o.Length()), sim.Clock(o.From), allowanceText(o.Allowed)))
			}
		}
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

// lossText says where a person lost the heat of the peak: the three greatest
// losses by what the person was about, since the debt was last nil.
func lossText(tl *sim.Timeline, p *cold.Person) string {
	type loss struct {
		doing string
		wh    float64
		time  sim.Time
	}
	var losses []loss
	for _, e := range p.Ledger {
		if e.To > p.PeakAt && e.From >= p.PeakAt {
			break
		}
		if e.Debt == 0 {
			losses = losses[:0]
			continue
		}
		if e.S >= 0 {
			continue
		}
		doing := entryText(tl, e)
		at := slices.IndexFunc(losses, func(l loss) bool { return l.doing == doing })
		if at < 0 {
			losses, at = append(losses, loss{doing: doing}), len(losses)
		}
		losses[at].wh -= e.S * (e.To - e.From).Seconds() / 3600
		losses[at].time += e.To - e.From
	}
	if len(losses) == 0 {
		return "without losing any"
	}
	slices.SortStableFunc(losses, func(a, b loss) int { return cmp.Compare(b.wh, a.wh) })
	var parts []string
	for _, l := range losses[:min(3, len(losses))] {
		parts = append(parts, fmt.Sprintf("%.1f Wh/m2 %s for %s", l.wh, l.doing, sim.Clock(l.time)))
	}
	return "lost mostly as follows: " + strings.Join(parts, ", ")
}

// entryText says what a person is about in an entry of the account.
func entryText(tl *sim.Timeline, e cold.Entry) string {
	d := tl.Drill
	switch {
	case e.What == sim.Watching:
		return fmt.Sprintf("on lookout %q", d.Lookouts[e.Lookout].Name)
	case e.What == sim.Walking:
		return "walking"
	case e.What == sim.Working:
		return fmt.Sprintf("on %q", d.Tasks[e.Task].Name)
	}
	return "waiting"
}
