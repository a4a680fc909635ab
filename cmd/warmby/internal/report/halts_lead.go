package report

import (
	"cmp"
	"math"
	"slices"

	"warmby/sim/cold"
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
	says := []Sentence{Say("{} {}", h.answer(), h.around()), h.byOrder(), h.byCase(), h.inAll(), h.coldest(), h.stays(), h.missed()}
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
		return Say("No arrival tried is in time with usual values. {} earlier still (--from), or change the order or the team.", do)
	}
	best := a.Best()
	if share := h.share(best); share != nil && share.Count > 0 {
		return Say("No arrival tried is in time in {}. The best is {}: in {}. {} earlier still (--from), ask for less (--odds), or change the order or the team.",
			h.often(), h.when(best), h.shareWords(best), do)
	}
	switch by := a.Points[0].Drill.Milestones[a.Milestone].By; {
	case m.ByText == "dark" && by <= 0:
		return Say("No arrival tried is in time in any run. It is dark already at the first of them: change the target.")
	case !onTheClock(m):
		return Say("No arrival tried is in time in any run. The target counts from the arrival, and moves with it: change the order or the team.")
	}
	return Say("No arrival tried is in time in any run. {} earlier still (--from), or change the order or the team.", do)
}

func (h Halts) share(i int) *stats.Share { return h.first().Points[i].OnTime[h.first().Milestone] }

// shareWords says how often it is in time at an arrival; a share that falls short
// and would be rounded up to what is asked for says so.
func (h Halts) shareWords(i int) Sentence {
	s := h.share(i)
	if s == nil {
		return Say("no run: there is no target then")
	}
	if !h.first().Meets(i) && math.Round(10*s.Value) >= 10*h.first().Odds {
		return Say("not quite {}", h.often())
	}
	return Say("{}", Share{Share: *s, Of: h.site().Many})
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
		if o.Never != "" {
			items = append(items, Say("{} cannot be played", name))
			continue
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

// coldest says who is coldest at the halt that the lead names.
func (h Halts) coldest() Sentence {
	a := h.first().Answer
	at := h.sure(a)
	if at < 0 {
		at = a.Latest()
	}
	if at < 0 || a.Points[at].Coldest == nil {
		return nil
	}
	c := a.Points[at].Coldest
	heat, limit := Quantity{Value: c.Peak, Unit: ""}, Quantity{Value: cold.HeatLimit, Unit: "Wh/m2"}
	if c.Peak >= cold.HeatLimit {
		return Say("Too cold then, with usual values: {}, {} where {} is the limit (warmby rehearse says who).", c.Name, heat, limit)
	}
	return Say("Nobody is too cold then with usual values; coldest {}, {} of {} allowed.", c.Name, heat, limit)
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
