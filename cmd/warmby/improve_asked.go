package main

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/rehearse"
	"warmby/sim/search"
)

// What is asked of improve, read from its flags.

// mostFreshRuns keeps what is judged within memory.
const mostFreshRuns = 1_000_000

func (e *environment) checkImprove(f *improveFlags) error {
	switch {
	case f.evaluations < 1 || f.evaluations > ask.MostEvaluations:
		return &mistake.Usage{What: fmt.Sprintf("--evaluations expects a whole number from 1 to %d, got %d", ask.MostEvaluations, f.evaluations), Cure: fmt.Sprintf("left out, %d drills are played", search.DefaultEvaluations)}

	case f.runs < 0 || f.runs == 1 || f.runs > mostFreshRuns:
		return &mistake.Usage{What: fmt.Sprintf("--runs expects 0, or a whole number from 2 to %d, got %d", mostFreshRuns, f.runs), Cure: "0 searches with usual values only"}

	case f.write != "" && f.oneWhatIf() != "":
		return &mistake.Usage{What: "--write and --what-if exclude each other", Cure: "an order found for a what-if is printed to be pasted"}
	case strings.ContainsFunc(f.name, unicode.IsControl):
		return &mistake.Usage{What: fmt.Sprintf("--name expects a name on one line, got %q", f.name), Cure: "such as --name \"improved\""}
	case f.name != "" && scenarios.Fault(f.name) != "":
		return &mistake.Usage{What: fmt.Sprintf("--name %q %s", f.name, scenarios.Fault(f.name)), Cure: "such as --name \"improved\""}
	case doubled(f.byDark) != "":
		return &mistake.Usage{What: fmt.Sprintf("--by-dark %q stands twice", doubled(f.byDark)), Cure: "name it once"}
	case doubled(f.inTime) != "":
		return &mistake.Usage{What: fmt.Sprintf("--in-time %q stands twice", doubled(f.inTime)), Cure: "name it once"}
	case doubled(f.whatIfs) != "":
		return &mistake.Usage{What: fmt.Sprintf("--what-if %q stands twice", doubled(f.whatIfs)), Cure: "name it once"}
	}
	if err := ask.SettleWorkers(&f.workers); err != nil {
		return err
	}
	if err := f.Check(); err != nil {
		return err
	}
	files := f.Files()
	if f.write != "" {
		files = append(slices.Clone(files), f.write)
	}
	return e.mayWrite(f.Force, files...)
}

// doubled returns a name that a list holds more than once, "" for none.
func doubled(names []string) string {
	for i, name := range names {
		if slices.Contains(names[:i], name) {
			return name
		}
	}
	return ""
}

// newImprovement settles what is asked.
func newImprovement(src *ask.Source, s *scenarios.Scenario, f improveFlags) (*improvement, error) {
	d, orders := s.Parts()
	if len(orders) == 0 {
		orders = []sim.Order{d.FileOrder(ask.FileOrder)}
	}
	m := &improvement{name: src.Name, arg: src.Arg, flags: f, d: d, own: s.Orders()}
	m.options = search.Options{Orders: orders, ColdLimit: f.keepCold, Evaluations: f.evaluations, Runs: f.runs, Seed: f.seed, Workers: f.workers}
	if f.runs > 0 && !rehearse.IsDrawn(d) {
		m.options.Runs = 0 // every run is the same
	}
	for _, text := range f.aims {
		a, err := m.aim(text)
		if err != nil {
			return nil, err
		}
		if slices.Contains(m.options.Aims, a) {
			return nil, &mistake.Usage{What: fmt.Sprintf("--aim %q stands twice", text), Cure: "name it once"}
		}
		m.options.Aims = append(m.options.Aims, a)
	}
	odds, err := ask.Share("odds", f.odds)
	if err != nil {
		return nil, err
	}
	if err := m.settleTargets(odds); err != nil {
		return nil, err
	}
	if err := m.settleShares(); err != nil {
		return nil, err
	}
	return m, nil
}

// statisticWord is what may stand behind the milestone of an aim.
var statisticWord = regexp.MustCompile(`^(.*\S)\s+(mean|p[0-9]{1,2})$`)

// aim reads an aim: a milestone and a statistic.
func (m *improvement) aim(text string) (search.Aim, error) {
	name, s := strings.TrimSpace(text), search.Mean
	if at := m.milestone(name); at >= 0 {
		return search.Aim{Milestone: at, Statistic: s}, nil
	}
	if goal, is := goalNamed(name); is {
		return search.Aim{Goal: goal}, m.possible(goal)
	}
	if parts := statisticWord.FindStringSubmatch(name); parts != nil {
		name = parts[1]
		if parts[2] != "mean" {
			p, _ := strconv.Atoi(parts[2][1:])
			if p == 0 {
				return search.Aim{}, &mistake.Usage{What: fmt.Sprintf("--aim %q: p0 is no moment", text), Cure: "p50, p80, p90 or p95"}
			}
			s = search.Quantile(float64(p) / 100)
		}
	}
	at, err := m.milestoneAsked("--aim", name)
	return search.Aim{Milestone: at, Statistic: s}, err
}

func goalNamed(name string) (search.Goal, bool) {
	for _, g := range []search.Goal{search.AllWell, search.AllTargets, search.NobodyCold} {
		if g.String() == name {
			return g, true
		}
	}
	return search.Reached, false
}

// goalAndShare is what --at-least expects.
var goalAndShare = regexp.MustCompile(`^\s*([a-z]+ [a-z]+)\s+(\S.*)$`)

// settleShares settles in how many evenings all must be well.
func (m *improvement) settleShares() error {
	if m.flags.coldOdds != "" {
		odds, err := ask.Share("cold-odds", m.flags.coldOdds)
		if err != nil {
			return err
		}
		m.options.AtLeast = append(m.options.AtLeast, search.AtLeast{Goal: search.NobodyCold, Odds: odds})
	}
	for _, text := range m.flags.atLeast {
		wrong := &mistake.Usage{What: fmt.Sprintf("--at-least expects \"all well\", \"all targets\" or \"nobody cold\" and a share, got %q", text), Cure: "such as --at-least \"all well 80 %\""}
		parts := goalAndShare.FindStringSubmatch(text)
		if parts == nil {
			return wrong
		}
		goal, is := goalNamed(parts[1])
		odds, err := ask.Share("at-least", parts[2])
		if !is || err != nil {
			return wrong
		}
		m.options.AtLeast = append(m.options.AtLeast, search.AtLeast{Goal: goal, Odds: odds})
	}
	return nil
}

// possible refuses a goal that every evening meets.
func (m *improvement) possible(goal search.Goal) error {
	targets := slices.ContainsFunc(m.d.Milestones, func(ms sim.Milestone) bool { return ms.By != sim.Never })
	switch {
	case goal == search.AllTargets && !targets:
		return &mistake.Usage{What: fmt.Sprintf("--aim %q: no milestone of %s has a target", goal, m.name), Cure: "give one in the file: by: 90 min, by: 15:00, by: dark"}
	case goal == search.NobodyCold && !cold.Kept(m.d), goal == search.AllWell && !targets && !cold.Kept(m.d):
		return &mistake.Usage{What: fmt.Sprintf("--aim %q: %s has no account of cold", goal, m.name), Cure: "it takes weather and clothing; see warmby help scenario"}
	}
	return nil
}

func (m *improvement) milestone(name string) int {
	return slices.IndexFunc(m.d.Milestones, func(ms sim.Milestone) bool { return ms.Name == name })
}

func (m *improvement) milestoneAsked(flag, name string) (int, error) {
	if at := m.milestone(name); at >= 0 {
		return at, nil
	}
	var names []string
	for _, ms := range m.d.Milestones {
		names = append(names, ms.Name)
	}
	err := &mistake.Usage{What: fmt.Sprintf("%s: %s has no milestone %q", flag, m.name, name), Cure: "its milestones: " + mistake.Quoted(names)}
	if near := mistake.Nearest(name, names); len(near) > 0 {
		err.Cure = "did you mean " + mistake.Quoted(near) + "?"
	}
	return -1, err
}

// settleTargets settles what must be in time.
func (m *improvement) settleTargets(odds float64) error {
	for _, name := range m.flags.byDark {
		at, err := m.milestoneAsked("--by-dark", name)
		if err != nil {
			return err
		}
		dark := slices.IndexFunc(m.d.Light, func(l sim.Light) bool { return l.Dark })
		if len(m.d.Light) == 0 {
			return &mistake.Usage{What: fmt.Sprintf("--by-dark %q: %s does not say where and when it is", name, m.name), Cure: "site needs latitude, longitude and arrival"}
		}
		by := sim.Time(sim.Horizon)
		if dark >= 0 {
			by = m.d.Light[dark].At
		}
		m.options.InTime = append(m.options.InTime, search.InTime{Milestone: at, By: by, Odds: odds})
	}
	for _, name := range m.flags.inTime {
		at, err := m.milestoneAsked("--in-time", name)
		if err != nil {
			return err
		}
		if m.d.Milestones[at].By == sim.Never {
			return &mistake.Usage{What: fmt.Sprintf("--in-time %q: the milestone has no target", name), Cure: "give it one in the file: by: 90 min, by: 15:00, by: dark"}
		}
		m.options.InTime = append(m.options.InTime, search.InTime{Milestone: at, By: m.d.Milestones[at].By, Odds: odds})
	}
	return nil
}

// oneWhatIf returns the what-if that is searched by itself, "" for none.
func (f *improveFlags) oneWhatIf() string {
	if len(f.whatIfs) == 1 && f.whatIfs[0] != ask.AllWhatIfs {
		return f.whatIfs[0]
	}
	return ""
}

// settleCases makes a case of each of several what-ifs.
func (m *improvement) settleCases(src *ask.Source) error {
	if len(m.flags.whatIfs) == 0 || m.flags.oneWhatIf() != "" {
		return nil
	}
	wanted, err := src.WhatIfs(m.flags.whatIfs)
	if err != nil {
		return err
	}
	for _, name := range wanted {
		s, err := src.Scenario.WhatIf(name)
		if err != nil {
			return err
		}
		d, _ := s.Parts()
		m.options.Cases = append(m.options.Cases, search.Case{Name: name, Drill: d})
		if m.flags.runs > 0 && rehearse.IsDrawn(d) {
			m.options.Runs = m.flags.runs
		}
	}
	return nil
}

// cautions returns what all cases together call for.
func (m *improvement) cautions() []cold.Caution {
	drills := []*sim.Drill{m.d}
	for _, c := range m.options.Cases {
		drills = append(drills, c.Drill)
	}
	return cold.CautionsOfAll(drills)
}
