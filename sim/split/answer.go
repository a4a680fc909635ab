package split

import (
	"context"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
)

// Question is what is asked of a game as a whole.
type Question struct {
	// Sizes are the team sizes to tell of, rising; nil for all from the smallest
	// that can play up to the team's own.
	Sizes []int
	// Order is the order of the game that a better one is compared with; "" for the
	// first.
	Order string
	Cases []*Case // beside the game itself; nil for none
}

// Answer is all that came of a question.
type Answer struct {
	Sizes []*Size // asked for, rising
	Least *Size   // the largest team that is too small to play; nil when not met
	Own   *Size   // the team as the game has it
	Worth Under
	Cold  map[*Split]*compare.Cold // of the splits of Sizes; nil with usual values
	Bends []*Bend                  // by size; nil without cases
}

// Under is what things are worth to the whole team.
type Under struct {
	Base *Split
	List []*Worth // a better order than the base, then each thing more on top of that
}

// Largest returns the size of the largest team that a question makes the game
// play.
func (g *Game) Largest(sizes []int) int {
	return slices.Max(append(slices.Clip(sizes), len(g.Bare.People)))
}

// PartsFor returns how many calls of Size and Worth a question takes: see
// [Game.Parts].
func (g *Game) PartsFor(sizes []int) int {
	const worth = 1
	return g.Largest(sizes) + worth
}

// Answer plays what is asked. A whole team that cannot play is an error.
func (g *Game) Answer(ctx context.Context, q Question) (*Answer, error) {
	if err := sim.Possible(g.Orders[0]); err != nil {
		return nil, err
	}
	a := &Answer{}
	if err := g.sizes(ctx, q, a); err != nil {
		return nil, err
	}
	if a.Own.Best < 0 {
		return nil, a.Own.Why
	}
	if err := g.worths(ctx, q, a); err != nil {
		return nil, err
	}
	if err := g.cold(ctx, a); err != nil {
		return nil, err
	}
	return a, g.bends(ctx, q, a)
}

// sizes plays all sizes. Each starts from the one before it, whichever are asked
// for, so that a size has the same answer in every company.
func (g *Game) sizes(ctx context.Context, q Question, a *Answer) error {
	own := len(g.Bare.People)
	var size *Size
	for n := 1; n <= g.Largest(q.Sizes); n++ {
		var err error
		if size, err = g.Size(ctx, n, size); err != nil {
			return err
		}
		if n == own {
			a.Own = size
		}
		switch {
		case q.Sizes != nil && !slices.Contains(q.Sizes, n):
		case q.Sizes == nil && size.Best < 0 && len(a.Sizes) == 0 && n < own:
			a.Least = size
		default:
			a.Sizes = append(a.Sizes, size)
		}
	}
	return nil
}

// worths tells what things are worth, against the order asked for. A better order
// that comes of it is a split of the team as well.
func (g *Game) worths(ctx context.Context, q Question, a *Answer) error {
	order := q.Order
	if order == "" {
		order = g.Orders[0].Order
	}
	base := a.Own.Of(Form{Order: order, Listed: order == ""})
	switch {
	case base == nil && q.Order != "":
		return fmt.Errorf("order %q cannot be played: %w", q.Order, a.Own.Why)
	case base == nil:
		base = a.Own.BestSplit()
	}
	list, err := g.Worth(ctx, base, a.Own)
	if err != nil {
		return err
	}
	a.Worth = Under{base, list}
	g.adopt(a.Own, &Split{Played: list[0].played, kept: true})
	return nil
}

// adopt makes a split the best of a size where it is sooner than the best so far.
// It takes the place of the one into as many groups, or stands before the orders
// there are.
func (g *Game) adopt(size *Size, found *Split) {
	best := size.BestSplit()
	if found.Stopped > best.Stopped || g.sum(found) >= g.sum(best) {
		return
	}
	at := slices.IndexFunc(size.Splits, func(s *Split) bool { return !s.there && s.Form() == found.Form() })
	if at >= 0 {
		size.Splits[at] = found
	} else {
		at = slices.IndexFunc(size.Splits, func(s *Split) bool { return s.there })
		at = max(at, 0)
		size.Splits = slices.Insert(size.Splits, at, found)
	}
	size.Best = at
}

// cold lists the accounts of cold of the splits told of, and keeps that of one that came
// late. With usual values there is one play, and nothing to count.
func (g *Game) cold(ctx context.Context, a *Answer) error {
	if g.Runs == 0 {
		return nil
	}
	a.Cold = map[*Split]*compare.Cold{}
	for _, size := range a.Sizes {
		for _, one := range size.Splits {
			if one.cold == nil {
				list, err := compare.HowCold(ctx, []*compare.Played{one.Played}, compare.Batch{Seed: g.Seed, Runs: g.Runs, Workers: g.Workers})
				if err != nil {
					return err
				}
				one.cold = list[0]
			}
			a.Cold[one] = one.cold
		}
	}
	return nil
}

// bends plays the splits of every size in every case.
func (g *Game) bends(ctx context.Context, q Question, a *Answer) error {
	if len(q.Cases) == 0 {
		return nil
	}
	for _, size := range a.Sizes {
		cases := [][]*compare.Played{nil}
		for _, one := range size.Splits {
			cases[0] = append(cases[0], one.Played)
		}
		for _, c := range q.Cases {
			played, err := g.Case(ctx, size, c)
			if err != nil {
				return fmt.Errorf("what if %q: %w", c.Name, err)
			}
			cases = append(cases, played)
		}
		a.Bends = append(a.Bends, JudgeCases(size, cases, g.Milestone))
	}
	return nil
}

// Shown returns the size that is told of at length: the team's own or, where that
// is not asked for, the largest that plays; nil when none does.
func (a *Answer) Shown() (last *Size) {
	for _, size := range a.Sizes {
		if size == a.Own {
			return size
		}
		if size.Best >= 0 {
			last = size
		}
	}
	return last
}

// Of returns the first of a kind; nil when there is none.
func (u Under) Of(kind Kind) *Worth {
	for _, w := range u.List {
		if w.Kind == kind {
			return w
		}
	}
	return nil
}
