package report

import (
	"cmp"
	"math"
	"slices"

	"warmby/sim/halt"
	"warmby/sim/stats"
)

// lead says by when to halt, how often it is in time then, what other orders
// and cases ask for, who is coldest, and what stays on the clock; the last of
// it only where there is room.
func (h Halts) lead() (list []Block) {
	room := most - 1 - lines(Say("{}. {}", h.title(), h.subtitle())) // a line for the cautions
	for _, w := range h.Warnings() {
		room -= lines(Say("Warning: {}", w))
	}
	says := []Sentence{Say("{} {}", h.answer(), h.around()), h.doubted(), h.better(), h.byOrder(), h.byCase(), h.inAll(), h.well(), h.tooCold(), h.stays(), h.missed()}
	for i, s := range says {
		if i == 0 || !s.IsEmpty() && lines(s) <= room {
			list = append(list, Text{Says: s})
			room -= lines(s)
		}
	}
	return list
}

// answer says by when to halt.
func (h Halts) answer() Sentence {
	a := h.first().Answer
	at, sure, do := a.Latest(), h.sure(a), capital(h.act())
	under := ""
	if h.several() && h.Drill.Order != "" {
		under = " with " + quote(h.Drill.Order)
	}
	switch {
	case at < 0:
		return h.none()
	case h.Runs == 0:
		return Say("{} by {}{}, by usual values.", do, h.when(at), under)
	case sure < 0:
		return Say("{}{} is the toss-up; no arrival tried is sure (more --runs tell more).", h.when(at), under)
	case sure == at:
		return Say("{} by {}{}.", do, h.when(at), under)
	}
	return Say("{} by {}{}; {} is the toss-up.", do, h.when(sure), under, h.when(at))
}

// none says that no arrival tried is in time often enough, and what to do.
func (h Halts) none() Sentence {
	a, m := h.first().Answer, h.asked()
	do := capital(h.act())
	if h.Runs == 0 {
		return Say("No arrival tried is {} with usual values. {} earlier still (--from), or change the order or the team.", h.goal(), do)
	}
	best := a.Best()
	if a.ColdOdds > 0 && a.Points[best].Well.NobodyCold != nil {
		return Say("No arrival tried keeps both. At {} it is in time in {}, and nobody is too cold in {}. {} at another time (--from, --to), ask for less, or change the order, the clothing or the team.",
			h.when(best), h.shareWords(best), Share{*a.Points[best].Well.NobodyCold, h.site().Many}, do)
	}
	if share := h.share(best); share != nil && share.Count > 0 {
		return Say("No arrival tried is {} in {}. The best is {}: in {}. {} earlier still (--from), ask for less (--odds), or change the order or the team.",
			h.goal(), h.often(), h.when(best), h.shareWords(best), do)
	}
	switch by := a.Points[0].Drill.Milestones[a.Milestone].By; {
	case a.AllWell:
		return Say("No arrival tried is all well in any run. {} earlier still (--from), or change the order, the clothing or the team.", do)
	case m.ByText == "dark" && by <= 0:
		return Say("No arrival tried is in time in any run. It is dark already at the first of them: change the target.")
	case !onTheClock(m):
		return Say("No arrival tried is in time in any run. The target counts from the arrival, and moves with it: change the order or the team.")
	}
	return Say("No arrival tried is in time in any run. {} earlier still (--from), or change the order or the team.", do)
}

// goal is what an arrival must be.
func (h Halts) goal() string {
	if h.first().AllWell {
		return "all well"
	}
	return "in time"
}

func (h Halts) share(i int) *stats.Share { return h.first().ShareOf(h.first().Points[i]) }

// shareWords says how often it is in time at an arrival; a share that falls short
// and would be rounded up to what is asked for says so.
func (h Halts) shareWords(i int) Sentence {
	s := h.share(i)
	if s == nil {
		return Say("no run: there is no target then")
	}
	return h.nearly(*s)
}

func (h Halts) nearly(s stats.Share) Sentence {
	if odds := h.first().Odds; float64(s.Count) < odds*float64(s.Runs)-1e-9 && math.Round(10*s.Value) >= 10*odds {
		return Say("not quite {}", h.often())
	}
	return Say("{}", Share{s, h.site().Many})
}

// around says how often it is in time at the sure moment, at the toss-up and at
// the next one tried.
func (h Halts) around() Sentence {
	a := h.first().Answer
	at := a.Latest()
	if at < 0 {
		return nil
	}
	last := at+1 == len(h.Arrivals)
	if h.Runs == 0 {
		if last {
			return Say("It is the latest arrival tried: --to tries later ones.")
		}
		return Say("At {}, the next one tried, it is too late.", h.when(at+1))
	}
	var parts []Sentence
	for _, i := range slices.Compact([]int{max(h.sure(a), 0), at, min(at+1, len(h.Arrivals)-1)}) {
		if i > 0 || h.sure(a) == 0 || at == 0 {
			parts = append(parts, Say("at {} in {}", h.when(i), h.shareWords(i)))
		}
	}
	s := Say("In time {}.", Join(parts, ", "))
	if h.first().AllWell {
		s = Say("All well {}.", Join(parts, ", "))
	}
	if last {
		s = Say("{} It is the latest arrival tried: --to tries later ones.", s)
	}
	return s
}

// mostListed is how many lines of a lead a list of orders or cases takes.
const mostListed = 2

// listed names as many items as there is room for.
func listed(head string, items []Sentence) Sentence {
	for n := len(items); ; n-- {
		s := Say("{}: {}", head, Join(items[:n], ", "))
		if n < len(items) {
			s = Say("{} and {} more", s, len(items)-n)
		}
		if s = sentenceEnd(s); n <= 1 || lines(s) <= mostListed {
			return s
		}
	}
}

// head begins a list of arrivals.
func (h Halts) head(of string) string {
	if h.Runs == 0 {
		return capital(h.act()) + ", by " + of
	}
	return "Sure, by " + of
}

// byOrder lists the orders of the first case, the one with which one may halt
// latest first.
func (h Halts) byOrder() Sentence {
	orders := slices.Clone(h.Cases[0].Orders)
	if len(orders) < 2 {
		return nil
	}
	slices.SortStableFunc(orders, func(a, b Halting) int { return cmp.Compare(h.sure(b.Answer), h.sure(a.Answer)) })
	var items []Sentence
	for _, o := range orders {
		items = append(items, Say("{} {}", orderName(o.Order), h.whenever(h.sure(o.Answer))))
	}
	return listed(h.head("order"), items)
}

// byCase lists the cases under the first order.
func (h Halts) byCase() Sentence {
	if len(h.Cases) < 2 {
		return nil
	}
	var items []Sentence
	for _, c := range h.Cases {
		o, name := c.Orders[0], c.Name
		if c.WhatIf != "" {
			name = quote(c.WhatIf)
		}
		items = append(items, Say("{} {}", name, h.whenever(h.sure(o.Answer))))
	}
	return listed(h.head("case"), items)
}

// under lists what came of every case under an order.
func (h Halts) under(order int) (list []*halt.Answer) {
	for _, c := range h.Cases {
		list = append(list, c.Orders[order].Answer)
	}
	return list
}

// sureOfAll is the last arrival that is sure in all cases under an order.
func (h Halts) sureOfAll(order int) int {
	if h.Runs == 0 {
		return halt.LatestOfAll(h.under(order))
	}
	return halt.LatestSureOfAll(h.under(order))
}

// inAll says by when to halt for all cases, with the order that leaves most
// time.
func (h Halts) inAll() Sentence {
	if len(h.Cases) < 2 {
		return nil
	}
	best := 0
	for k := range h.Cases[0].Orders {
		if h.sureOfAll(k) > h.sureOfAll(best) {
			best = k
		}
	}
	at := h.sureOfAll(best)
	if at < 0 {
		return Say("No arrival tried is sure in all of these cases.")
	}
	return Say("For all of these cases {} by {} with {}.", h.act(), h.when(at), orderName(h.Cases[0].Orders[best].Order))
}

// better says how much later one may halt with an order that was looked for.
func (h Halts) better() Sentence {
	if h.Search == nil {
		return nil
	}
	last := len(h.Cases[0].Orders) - 1
	if h.Search.Order == nil {
		return Say("No better order was found: none lets one {} later than those of the file.", h.act())
	}
	was, now, found := -1, h.latestOfAll(last), h.Cases[0].Orders[last]
	for k := range h.Cases[0].Orders[:last] {
		was = max(was, h.latestOfAll(k))
	}
	s := Say("With a better order the toss-up is {}", h.when(now))
	if sure := h.sure(found.Answer); sure >= 0 && len(h.Cases) == 1 {
		now, s = sure, Say("With a better order {} by {}", h.act(), h.when(sure))
		was = -1
		for _, o := range h.Cases[0].Orders[:last] {
			was = max(was, h.sure(o.Answer))
		}
	}
	if was >= 0 {
		s = Say("{}, {} later than with those of the file", s, Length(h.Arrivals[now]-h.Arrivals[was]))
	}
	if well := found.Points[now].Well.All; well != nil && !found.AllWell && h.Runs > 0 {
		s = Say("{}; all is well then in {}", s, Share{*well, h.site().Many})
	}
	return Say("{} (the order: --all).", s)
}

// told is the arrival that the lead is about; -1 for none.
func (h Halts) told() int {
	if at := h.sure(h.first().Answer); at >= 0 {
		return at
	}
	return h.first().Latest()
}

// well says by when to halt for all to be well.
func (h Halts) well() Sentence {
	a := h.first().Answer
	best := a.BestWell()
	if a.AllWell || best < 0 || len(a.Points) == 0 {
		return nil
	}
	at, s := a.LatestWell(), *a.Points[best].Well.All
	switch {
	case at >= 0 && h.Runs == 0:
		return Say("All well with usual values: {} by {}.", h.act(), h.when(at))
	case at >= 0:
		return Say("All well in {}: {} by {}.", h.often(), h.act(), h.when(at))
	case s.Count == 0:
		return Say("All well: at no arrival tried.")
	}
	return Say("All well: in {} at most, at {}.", h.nearly(s), h.when(best))
}

// tooCold says who gets too cold, how often, at the halt that the lead names.
func (h Halts) tooCold() Sentence {
	at := h.told()
	if at < 0 || h.first().Points[at].Cold == nil {
		return nil
	}
	p := h.first().Points[at]
	over := tooColdAt(p, seldomCold)
	switch {
	case h.Runs == 0 && len(over) == 0:
		return Say("Nobody is too cold then with usual values.")
	case h.Runs == 0:
		return listed("Too cold then, with usual values", namesOf(over))
	case len(over) == 0:
		return Say("Somebody too cold then: in {}.", Share{p.Cold.OverShare(), h.site().Many})
	}
	var items []Sentence
	for i, o := range over {
		of := ""
		if i == 0 {
			of = h.site().Many
		}
		items = append(items, Say("{} in {}", o.name, Share{o.share, of}))
	}
	return listed("Too cold then", items)
}

// chilled is somebody who gets too cold in a share of runs.
type chilled struct {
	name  string
	share stats.Share
}

func namesOf(list []chilled) (names []Sentence) {
	for _, c := range list {
		names = append(names, Say("{}", c.name))
	}
	return names
}

// tooColdAt lists who gets too cold at an arrival in a share of runs or more, most
// often first.
func tooColdAt(p halt.Point, least float64) (list []chilled) {
	for who, count := range p.Cold.OverBy {
		if s := stats.ShareOf(int64(count), int64(len(p.Cold.Peaks))); count > 0 && s.Value >= least {
			list = append(list, chilled{p.Drill.People[who].Name, s})
		}
	}
	slices.SortStableFunc(list, func(a, b chilled) int { return cmp.Compare(b.share.Count, a.share.Count) })
	return list
}

// stays says what stays on the clock while the halt moves.
func (h Halts) stays() Sentence {
	var items []Sentence
	if dark := darkOf(h.Drill); !dark.IsEmpty() {
		items = append(items, dark)
	}
	var clocks []Sentence
	seen := map[string]bool{}
	for _, m := range h.Drill.Milestones {
		if m.ByText != "dark" && onTheClock(m) && !seen[m.ByText] {
			seen[m.ByText] = true
			clocks = append(clocks, Say("{}", m.ByText))
		}
	}
	if len(clocks) > 0 {
		items = append(items, Say("targets by {}", Listed(clocks)))
	}
	if len(h.Drill.Weather) > 0 {
		items = append(items, Say("the weather"))
	}
	if len(items) == 0 {
		return nil
	}
	return sentenceEnd(Say("What stays on the clock: {}", Join(items, ", ")))
}

// missed says where earlier is not better.
func (h Halts) missed() Sentence {
	var items []Sentence
	for _, i := range h.first().MissedBefore(h.first().Latest()) {
		items = append(items, Say("{}", h.when(i)))
	}
	if len(items) == 0 {
		return nil
	}
	return listed("Earlier is not always better; too seldom in time", items)
}
