package main

import (
	"context"
	"fmt"

	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/split"
)

// tellCold keeps the account of cold of the splits that are told of. With usual
// values only there is one run, and nothing to count.
func (s *splitting) tellCold(ctx context.Context) error {
	if s.flags.usual() {
		return nil
	}
	var all []*split.Split
	var played []*compare.Played
	for _, size := range s.sizes {
		for _, one := range size.Splits {
			all, played = append(all, one), append(played, one.Played)
		}
	}
	list, err := compare.HowCold(ctx, played, compare.Batch{Seed: s.game.Seed, Runs: s.game.Runs, Workers: s.game.Workers})
	if err != nil {
		return err
	}
	s.cold = map[*split.Split]*compare.Cold{}
	for i, one := range all {
		s.cold[one] = list[i]
	}
	return nil
}

// coldText says how cold the coldest of a team of one size gets under each kind
// of split, and with other sizes under the best split of each.
func (s *splitting) coldText(shown *split.Size, width int) string {
	var lines []coldLine
	for k, one := range shown.Splits {
		name := kindOf(one)
		if k == shown.Best {
			name += " (best)"
		}
		lines = append(lines, coldLine{name, one.Drill, s.cold[one]})
	}
	for _, size := range s.sizes {
		if best := size.BestSplit(); best != nil && size != shown {
			lines = append(lines, coldLine{"best of " + countedPeople(size.People), best.Drill, s.cold[best]})
		}
	}
	return coldTable(lines, occasions(s.d), width)
}

// coldWords says in how many runs somebody gets too cold under the best split
// of a team, and under the one where it is in the fewest.
func (s *splitting) coldWords(size *split.Size) string {
	best, least := size.BestSplit(), size.LeastOver(s.cold)
	if least == nil {
		return ""
	}
	say := func(one *split.Split) string {
		return inHundred(s.cold[one].OverShare(), occasions(s.d))
	}
	text := fmt.Sprintf("Cold: under the best split of %s somebody passes the limit of %d Wh/m2 %s", countedPeople(size.People), cold.HeatLimit, say(best))
	if least != best {
		text += fmt.Sprintf("; of all looked at for that size, least often under %s, %s", s.under(least), say(least))
	}
	return text + "."
}

// splitColdJSON is the account of cold under one split.
type splitColdJSON struct {
	People  int            `json:"people"`
	Groups  int            `json:"groups"`
	Order   *string        `json:"order"` // null for a split made here
	Best    bool           `json:"best"`  // of its size
	Account *orderColdJSON `json:"account"`
}

func (s *splitting) coldDocument() []splitColdJSON {
	list := []splitColdJSON{}
	for _, size := range s.sizes {
		for k, one := range size.Splits {
			if j := coldOrderDocument(one.Drill, s.cold[one]); j != nil {
				list = append(list, splitColdJSON{size.People, len(one.Drill.Groups), orderName(one), k == size.Best, j})
			}
		}
	}
	return list
}
