package split

// purse is how many drills one part of a search may play.
type purse struct {
	capped bool
	left   int // meaningless without a cap
	kept   int // of what is left, for what comes later
	played int
}

// open returns the purse of the next part of the search: an even share of what
// is left, so that later parts have what one saves.
func (g *Game) open() *purse {
	if g.Evaluations == 0 {
		return &purse{}
	}
	parts := max(1, g.Parts-g.opened)
	g.opened++
	return &purse{capped: true, left: max(0, g.Evaluations-g.played) / parts}
}

// close counts what a part has played.
func (g *Game) close(p *purse) { g.played += p.played }

// Played returns how many drills the search has played so far: each run of each
// split counts as one. What is played to tell of the chosen is not among them.
func (g *Game) Played() int { return g.played }

// LeastEvaluations returns how many drills a search of the parts must be
// allowed at least: each order of each size once for its tasks, and each that
// may be chosen once to choose.
func (g *Game) LeastEvaluations() int { return max(1, g.Parts) * (len(g.Orders) + g.mostChosen()) }

// mostChosen is among how many splits of a size the best is chosen at most.
func (g *Game) mostChosen() int { return MostGroups + len(g.Orders) }

// within reports whether so many drills may be played once each.
func (p *purse) within(drills int) bool { return !p.capped || p.left-p.kept >= drills }

// pay returns how many drills may be played in how many runs each, when so many
// are wanted, and takes them out of the purse: fewer runs first, then fewer
// drills.
func (p *purse) pay(drills, runs int) (int, int) {
	if p.capped {
		have := max(0, p.left-p.kept)
		drills = min(drills, have)
		if drills > 0 {
			runs = min(runs, have/drills)
		}
		p.left -= drills * runs
	}
	p.played += drills * runs
	return drills, runs
}

// part returns how many drills one of some equal parts of what comes may play, and
// without a cap so many as are usual.
func (p *purse) part(parts, usual int) int {
	if !p.capped {
		return usual
	}
	return max(0, p.left-p.kept) / parts
}
