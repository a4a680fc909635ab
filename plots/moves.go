package plots

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
)

// MovesInput is what some milestones hang on.
type MovesInput struct {
	Title, Lead string
	Groups      []MovesGroup
	Foot        string // seed and the command that repeats it; may be empty
}

// MovesGroup is the tasks behind one milestone under one order.
type MovesGroup struct {
	Name  string
	Tasks []Mover
}

// Mover is what one task has to do with a milestone.
type Mover struct {
	Task string
	// Won is how many minutes sooner the milestone is for each minute by which
	// the task is shorter, with its interval; NaN when that is not known, and
	// Why says why not.
	Won, Low, High float64
	Why            string
	// Critical is the share of runs, 0 to 1, in which the task held the
	// milestone up.
	Critical float64
}

// leastCritical is the share of runs under which a task that wins nothing is
// only named.
const leastCritical = 0.05

// Moves draws what moves a milestone: minutes won for each minute by which a
// task is shorter, as dots with their intervals, the most first, and beside
// them in how many runs the task held the milestone up.
func Moves(in MovesInput) *Picture {
	c := newChart(in.Title, in.Lead)
	p := &dotPlot{unit: "minutes won per minute shorter", below: "later", over: "sooner"}
	for _, g := range in.Groups {
		tasks := slices.Clone(g.Tasks)
		slices.SortStableFunc(tasks, func(a, b Mover) int {
			return cmp.Or(cmp.Compare(last(-a.Won), last(-b.Won)), cmp.Compare(b.Critical, a.Critical))
		})
		group := dotGroup{name: clean(g.Name)}
		idle := 0
		for _, t := range tasks {
			if t.Critical < leastCritical && !(math.Abs(t.Won) >= 0.05) {
				idle++
				continue
			}
			group.rows = append(group.rows, t.row())
		}
		if idle > 0 {
			group.rows = append(group.rows, dotRow{name: others(idle, len(group.rows) > 0), mid: math.NaN(), said: "hardly move it"})
		}
		p.groups = append(p.groups, group)
	}
	p.draw(c)
	c.key = append(c.key, keyDots("mean and interval, which holds with 95 %", "")[0])
	return c.finish("The same luck is played again with one task a minute shorter. 1 means that a minute won there is a minute won at the milestone.", in.Foot)
}

func others(n int, more bool) string {
	words := []string{strconv.Itoa(n)}
	if more {
		words = append(words, "other")
	}
	if n == 1 {
		return strings.Join(append(words, "task"), " ")
	}
	return strings.Join(append(words, "tasks"), " ")
}

func (m *Mover) row() dotRow {
	r := dotRow{name: clean(m.Task), mid: m.Won, low: m.Low, high: m.High}
	held := "held it up in " + number(math.Round(100*m.Critical)) + " of 100"
	if math.IsNaN(m.Won) || math.IsInf(m.Won, 0) {
		r.mid = math.NaN()
		r.said = held
		if m.Why != "" {
			r.said += "; " + clean(m.Why)
		}
		return r
	}
	r.said = minus(strconv.FormatFloat(m.Won, 'f', 2, 64)) + "; " + held
	return r
}
