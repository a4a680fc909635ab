package scenarios

import (
	"fmt"
	"time"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

func (b *builder) readMilestones(n *yaml.Node) {
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i := range b.d.Tasks {
		finish.When = append(finish.When, i)
	}
	b.pairs(n, func(k, v *yaml.Node) {
		if !b.ok(v) {
			return
		}
		m := sim.Milestone{Name: k.Value, By: sim.Never}
		if by := b.get(v, "by"); by != nil {
			m.By, m.ByText = b.target(by)
		}
		if k.Value == sim.FinishName {
			if when := keyOf(v, "when"); when != nil {
				b.fail(when, "finish is when every task has ended and takes no tasks", "leave \"when\" out, or call the milestone something else")
			}
			finish.By, finish.ByText = m.By, m.ByText
			return
		}
		if b.absent(v, "when") {
			b.missing(k, "when", "", "the tasks that must have ended, such as \"when: [pitch the tent]\"")
		}
		seen := map[int]bool{}
		for _, task := range b.each(b.get(v, "when")) {
			for _, i := range b.findTasks(task) {
				if seen[i] {
					b.failGot(task, "the task stands twice in \"when\"", "name it once")
					break
				}
				seen[i] = true
				m.When = append(m.When, i)
			}
		}
		b.d.Milestones = append(b.d.Milestones, m)
	})
	b.d.Milestones = append(b.d.Milestones, finish)
}

// target returns when a milestone is wanted: a time since arrival; a clock
// time, the next one at or after arrival; or the first moment of darkness.
func (b *builder) target(n *yaml.Node) (sim.Time, string) {
	arrival := b.d.Site.Arrival
	if n.Value == "dark" {
		if !b.lightKnown() && !b.brokenSite("latitude", "longitude", "arrival") {
			b.failGot(n, "darkness needs a place and a date", "give site latitude, longitude and arrival")
		}
		return firstDark(b.d.Light), n.Value
	}
	if clock, ok := parseClock(n.Value); ok {
		if arrival.IsZero() {
			if !b.brokenSite("arrival") {
				b.failGot(n, "a clock time needs the arrival", "give site arrival, or a time since arrival such as \"100 min\"")
			}
			return sim.Never, n.Value
		}
		return nextClock(arrival, clock), n.Value
	}
	if v := b.values[n]; v != nil {
		return ms(v), n.Value
	}
	return sim.Never, fmt.Sprint(n.Value)
}

// nextClock returns the time from arrival to the next moment, at or after it,
// at which a clock with the arrival's own offset shows a time of day.
func nextClock(arrival time.Time, clock time.Duration) sim.Time {
	h, m, s := arrival.Clock()
	since := time.Duration(h)*time.Hour + time.Duration(m)*time.Minute + time.Duration(s)*time.Second
	wait := clock - since
	if wait < 0 {
		wait += 24 * time.Hour
	}
	return sim.Time(wait.Milliseconds())
}
