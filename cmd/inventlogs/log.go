package main

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"warmby/scenarios"
	"warmby/scenarios/stopwatch"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/fit/invent"
	"warmby/sim/heat"
	"warmby/sim/timed"
)

// drills is how many drills a log has, callOuts how many tasks are called out in
// most of them.
const (
	drills   = 8
	callOuts = 14
)

// season makes the drills of one log.
type season struct {
	s     *scenarios.Scenario
	of    *sim.Drill // for names
	truth map[string]invent.Truth
	calls func(task int) bool
	seed  uint64
	dice  *rand.Rand
}

// logOf returns the log of a scenario: two teams by turns, on Saturdays; most
// drills by call-outs with ends only, two with starts and names, one stopped by
// the clock, one called off.
func logOf(name string, s *scenarios.Scenario) ([]byte, error) {
	h := fnv.New64a()
	h.Write([]byte(name))
	seed := h.Sum64() % 1_000_000
	order := ""
	if len(s.Orders()) > 0 {
		order = s.Orders()[0]
	}
	d, err := s.Drill(order)
	if err != nil {
		return nil, err
	}
	how := invent.Usually
	how.Learning = -0.06
	red := invent.TruthOf(d, how, seed)
	blue := slower(red, 1.12)
	x := &season{
		s: s, of: d, calls: called(d), seed: seed, dice: rand.New(rand.NewPCG(seed, 3)),
		truth: map[string]invent.Truth{"red": red, "blue": blue},
	}
	var out []*timed.Drill
	for k := range drills {
		t, err := x.drill(k)
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	return stopwatch.Write([]string{
		"INVENTED: no such drill was ever timed. Written by cmd/inventlogs for the",
		fmt.Sprintf("scenario %s, from a known truth (seed %d), so that fit, review and season", name, seed),
		"have something to show. Time your own team.",
	}, d, out), nil
}

// slower is a team that takes longer for all work, and is else the same.
func slower(t invent.Truth, by float64) invent.Truth {
	t.Laws = slices.Clone(t.Laws)
	for i := range t.Laws {
		if t.Laws[i].Work {
			t.Laws[i].Level += math.Log(by)
		}
	}
	return t
}

// called returns which tasks are called out: those of milestones, and those that
// last longest.
func called(d *sim.Drill) func(int) bool {
	var tasks []int
	rank := map[int]float64{}
	for i := range d.Tasks {
		if d.Tasks[i].Unloads() {
			continue
		}
		tasks = append(tasks, i)
		if a := d.Tasks[i].Amount; a != nil {
			rank[i] = a.Usual()
		}
	}
	for _, m := range d.Milestones[:len(d.Milestones)-1] {
		for _, i := range m.When {
			rank[i] += 1e12
		}
	}
	slices.SortStableFunc(tasks, func(a, b int) int { return cmp.Compare(rank[b], rank[a]) })
	chosen := tasks[:min(callOuts, len(tasks))]
	return func(i int) bool { return slices.Contains(chosen, i) }
}

func (x *season) drill(k int) (*timed.Drill, error) {
	team := []string{"red", "blue"}[k%2]
	air, wind := x.weather()
	conditions := timed.Conditions{Air: &air, Wind: &wind, Indoor: timed.No, Learning: timed.No}
	orders := x.s.Orders()
	order := ""
	if len(orders) > 0 {
		order = orders[k/2%min(2, len(orders))]
	}
	arrival := x.of.Site.Arrival.AddDate(0, 0, 7*(k-drills)).Add(time.Duration(x.dice.IntN(5)*5-10) * time.Minute)
	d, err := x.s.Arriving(order, arrival)
	if err != nil {
		return nil, err
	}
	d = conditions.Over(d)
	habits := invent.Habits{Ends: true, Only: x.calls, Missed: 0.3, Places: sim.Minute}
	if k == 2 || k == 5 {
		habits = invent.Habits{Places: sim.Minute}
	}
	t, tl := invent.Drill(d, x.truth[team], habits, x.seed, k/2+1)
	if k == 4 || k == 7 {
		habits.Stops = tl.End * 3 / 4 / sim.Minute * sim.Minute
		t, tl = invent.Drill(d, x.truth[team], habits, x.seed, k/2+1)
	}
	t.CalledOff = k == 7
	t.Name, t.Team, t.Date, t.Order, t.Conditions = fmt.Sprint(k+1), team, arrival.Format(time.DateOnly), order, conditions
	t.Arrival = sim.Time(arrival.Hour())*sim.Hour + sim.Time(arrival.Minute())*sim.Minute + sim.Time(arrival.Second())*sim.Second
	t.Stoves = burnt(tl)
	if k == 2 {
		t.Felt = x.felt(tl)
	}
	return t, nil
}

// weather draws air and wind around those of the scenario's first row.
func (x *season) weather() (air, wind float64) {
	if len(x.of.Weather) > 0 {
		row := x.of.Weather[0].Rows[0]
		air, wind = row.Air, row.Wind
	}
	return math.Round(air) + float64(x.dice.IntN(9)-4), math.Max(0, math.Round(wind)+float64(x.dice.IntN(4)-1))
}

// burnt notes fuel of the stoves that melt only, and the water that they made.
func burnt(tl *sim.Timeline) []timed.StoveUse {
	var out []timed.StoveUse
	for _, u := range heat.Used(tl) {
		use := timed.StoveUse{Stove: u.Stove}
		for i := range tl.Drill.Tasks {
			t := &tl.Drill.Tasks[i]
			if t.Kind != sim.Melt || t.Melt.Stove != u.Stove || tl.Tasks[i].End == sim.Never {
				continue
			}
			litres, _ := t.Melt.Water.Float64()
			if use.Water += litres; !t.Melt.Boil || t.Melt.IceHole {
				use.Water = -1e9 // not all of it boiled from snow: nothing to be told
			}
		}
		if use.Water > 0 && u.Known && !tl.Drill.Stoves[u.Stove].HoldsPots {
			use.Fuel = math.Round(u.Amount*100) / 100
			out = append(out, use)
		}
	}
	return out
}

// felt notes how cold three people felt at three moments: what the account says
// of them, and a little beside it.
func (x *season) felt(tl *sim.Timeline) []timed.Felt {
	var out []timed.Felt
	for who, p := range cold.Account(tl) {
		if p.Why != "" || who >= 3 {
			continue
		}
		for k := sim.Time(1); k <= 3; k++ {
			at := (tl.End * k / 4) / sim.Minute * sim.Minute
			debt := 0.0
			for _, e := range p.Ledger {
				if e.From <= at {
					debt = e.Debt
				}
			}
			sense := math.Round(-debt/12 + float64(x.dice.IntN(3)-1)*0.5)
			out = append(out, timed.Felt{Person: who, At: at, Sense: math.Max(-4, math.Min(0, sense))})
		}
	}
	return out
}
