package results

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"warmby/scenarios"
)

// Keys of a batch beside those of the scenario.
const (
	seedKey    = "seed"    // the seed of a point
	runKey     = "run"     // the first run of a point
	whatIfKey  = "what if" // a what-if of the file; it comes before all other keys
	withoutKey = "without" // people who are not there, with + between
)

// mostRun is the highest number that the first run of a point may have.
const mostRun = 1_000_000_000

func (j *Job) hasKey(key string) bool { return slices.Contains(j.Keys, key) }

// at returns the scenario of a point.
func (p *Plan) at(point int) (*scenarios.Scenario, error) {
	s := p.scenario
	var keys, values []string
	var without []string
	for i, key := range p.Job.Keys {
		value := p.Job.Points[point][i]
		switch {
		case value == "", key == seedKey, key == runKey:
		case key == whatIfKey:
			changed, err := s.WhatIf(value)
			if err != nil {
				return nil, err
			}
			s = changed
		case key == withoutKey:
			for _, name := range strings.Split(value, "+") {
				without = append(without, strings.TrimSpace(name))
			}
		default:
			keys, values = append(keys, key), append(values, value)
		}
	}
	if len(keys) > 0 {
		varied, err := s.VaryAll(keys, values)
		if err != nil {
			return nil, err
		}
		s = varied
	}
	if len(without) > 0 {
		fewer, _, err := s.Tonight(scenarios.Facts{Without: without})
		return fewer, err
	}
	return s, nil
}

// start is where the luck of a point begins.
type start struct {
	seed  uint64
	first int // the number of its first run
}

// startsOf reads the seeds and first runs of all points; nil when no point has
// one of its own.
func (j *Job) startsOf() ([]start, error) {
	if !j.hasKey(seedKey) && !j.hasKey(runKey) {
		return nil, nil
	}
	list := make([]start, len(j.Points))
	for point, values := range j.Points {
		s := start{seed: j.Seed}
		for i, key := range j.Keys {
			var err error
			switch text := strings.TrimSpace(values[i]); {
			case text == "":
			case key == seedKey:
				s.seed, err = strconv.ParseUint(text, 10, 64)
			case key == runKey:
				if s.first, err = strconv.Atoi(text); err == nil && (s.first < 0 || s.first > mostRun) {
					err = strconv.ErrRange
				}
			}
			if err != nil {
				return nil, varyError(j.varyFlag(), fmt.Errorf("%s of point %d: expected a whole number, 0 or more, got %q", key, point+1, values[i]))
			}
		}
		list[point] = s
	}
	return list, nil
}

// startOf returns where the luck of a point begins.
func (p *Plan) startOf(point int) start {
	if p.starts == nil {
		return start{seed: p.Seed}
	}
	return p.starts[point]
}

// firstRun returns the number of the first run of a point.
func (p *Plan) firstRun(point int) int64 { return int64(p.startOf(point).first) }
