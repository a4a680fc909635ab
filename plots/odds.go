package plots

import (
	"cmp"
	"math"
	"slices"
	"time"

	"warmby/sim"
)

// OddsInput is when some orders reached some milestones in many runs.
type OddsInput struct {
	Title      string
	Lead       string      // whose odds they are; may be empty
	Arrival    time.Time   // time 0 on the clock; zero when unknown
	Light      []sim.Light // as in [sim.Drill]; may be nil
	Many       string      // what to call many runs; "evenings" when empty
	Milestones []OddsMilestone
	Foot       string // seed and the command that repeats it; may be empty
}

// OddsMilestone is one milestone under some orders.
type OddsMilestone struct {
	Name     string
	By       sim.Time // the target; sim.Never for none
	ByText   string   // the target in words; written as a time when empty
	Sentence string   // says in plain words what the odds are; made here when empty
	Orders   []OddsOrder
}

// OddsOrder is when the runs of one order reached a milestone.
type OddsOrder struct {
	Name  string     // "" when there is but one
	Times []sim.Time // one for each run, in any sequence; sim.Never where it never did
}

// Odds draws for each milestone and order the share of runs in which it is
// reached by a moment, over one ruler of minutes since arrival and clock time,
// with the target as a line and a plain sentence on top. The hatching about a
// curve is its band of confidence by [Band]: with 95 % all of the true curve
// lies in it. A milestone that some runs never reach has a curve that does not
// come up to 100 %, and words that say so.
func Odds(in OddsInput) *Picture {
	many := clean(in.Many)
	if many == "" {
		many = "evenings"
	}
	c := newChart(in.Title, in.Lead)
	var panels []*panelOdds
	looks := lookBook{}
	for i := range in.Milestones {
		panels = append(panels, newPanelOdds(&in.Milestones[i], looks, many))
	}
	if len(panels) == 0 {
		return c.finish("Nothing to show: no milestone was asked for.", in.Foot)
	}
	a := axis{x0: margin + 108, x1: right, arrival: in.Arrival, length: sim.Minute}
	for _, p := range panels {
		a.length = max(a.length, p.reach())
	}
	steps := (&sim.Drill{Light: in.Light}).Steps(0)
	c.y += a.draw(c.sheet, c.y) + 3
	if len(in.Light) > 0 {
		c.y += a.outside(c.sheet, steps, true, false, c.y)
	}
	for _, p := range panels {
		p.high = 112
		if len(panels) > 3 {
			p.high = 92
		}
		c.y += 8
		barsTop := c.y
		if text := p.sentence(a, many); text != "" {
			c.say(text, leadStyle)
			barsTop = c.y
		}
		c.y += p.bars(c.sheet, a, c.y)
		a.gridlines(c.sheet, barsTop, c.y)
		top := c.y
		c.y += p.draw(c.sheet, a, top)
		a.backdrop(c.sheet, steps, top+2, top+2, c.y)
		a.gridlines(c.sheet, top+2, c.y)
		for _, o := range p.nameless {
			c.explain(o.lineLook, o.name)
		}
	}
	c.y += 4
	if len(panels) > 1 {
		c.y += a.draw(c.sheet, c.y)
	}
	return c.finish(oddsFoot(panels, a.length, many), in.Foot)
}

// oddsFoot says how the panels are to be read, over a ruler of a length.
func oddsFoot(panels []*panelOdds, length sim.Time, many string) (foot string) {
	if slices.ContainsFunc(panels, func(p *panelOdds) bool { return p.barred() }) {
		foot = "A bar reaches from when it is usually there to when it is in 9 of 10 " + many + "; its curve has marks at both. "
	}
	foot += "A curve tells in what share of the " + many + " played the milestone is reached by then. The hatching about it holds all of the true curve with 95 % " +
		"(Dvoretzky, Kiefer and Wolfowitz, with Massart's constant): luck of the draw, not doubt about the scenario."
	if slices.ContainsFunc(panels, func(p *panelOdds) bool { return p.last() > length }) {
		foot += " What comes later than the ruler ends is at most 1 in 100 of what comes at all, for each curve."
	}
	return foot
}

// Band returns how far the band of confidence of an empirical curve of so many
// runs reaches to each side, as a share: with 95 % the whole true curve lies
// within it. By Dvoretzky, Kiefer and Wolfowitz, Ann. Math. Stat. 27 (1956)
// 642-669, with the constant of P. Massart, Ann. Probab. 18 (1990) 1269-1283:
// sqrt(ln(2/0.05) / 2n).
func Band(runs int) float64 {
	if runs < 1 {
		return 1
	}
	return min(1, math.Sqrt(math.Log(2/0.05)/(2*float64(runs))))
}

// lookBook gives each order a look that is its own throughout a picture.
type lookBook map[string]lineLook

func (b lookBook) look(name string) lineLook {
	k, ok := b[name]
	if !ok {
		k = lineLooks[len(b)%len(lineLooks)]
		b[name] = k
	}
	return k
}

// curve is an empirical curve: the moments of the runs that get there, rising.
type curve struct {
	lineLook
	name  string
	times []sim.Time
	runs  int
}

func newCurve(o OddsOrder, k lineLook) curve {
	c := curve{lineLook: k, name: clean(o.Name), runs: len(o.Times)}
	for _, at := range o.Times {
		if at != sim.Never {
			c.times = append(c.times, max(at, 0))
		}
	}
	slices.Sort(c.times)
	return c
}

// share returns in what share of runs the milestone is reached by a moment.
func (c *curve) share(by sim.Time) float64 {
	if c.runs == 0 {
		return 0
	}
	n, _ := slices.BinarySearch(c.times, by+1)
	return float64(n) / float64(c.runs)
}

// moment returns the moment by which a share of the runs has come, that of
// rank ceil(n p); sim.Never when fewer ever do.
func (c *curve) moment(p float64) sim.Time {
	rank := max(1, int(math.Ceil(float64(c.runs)*p-1e-9)))
	if rank > len(c.times) {
		return sim.Never
	}
	return c.times[rank-1]
}

// panelOdds is the panel of one milestone.
type panelOdds struct {
	milestone *OddsMilestone
	many      string
	curves    []curve
	high      float64
	left      int     // how many orders there are besides, later than these
	nameless  []curve // of which not even a number found room, once drawn
}

func newPanelOdds(m *OddsMilestone, looks lookBook, many string) *panelOdds {
	p := &panelOdds{milestone: m, many: many}
	for _, o := range m.Orders {
		p.curves = append(p.curves, newCurve(o, looks.look(clean(o.Name))))
	}
	if left := len(p.curves) - mostRows; left > 1 {
		slices.SortStableFunc(p.curves, func(x, y curve) int { return cmp.Compare(x.moment(0.9), y.moment(0.9)) })
		p.curves, p.left = p.curves[:mostRows], left
	}
	return p
}

// reach is up to when the ruler should run: to where 99 of 100 of the runs of
// every order that get there at all have come, and to the target unless it is
// much later.
func (p *panelOdds) reach() sim.Time {
	to := sim.Time(0)
	for _, c := range p.curves {
		if n := len(c.times); n > 0 {
			to = max(to, c.times[(n*99+99)/100-1])
		}
	}
	if by := p.milestone.By; by != sim.Never && by <= to+to/2 {
		to = max(to, by)
	}
	return to + to/50
}

func (p *panelOdds) last() sim.Time {
	last := sim.Time(0)
	for _, c := range p.curves {
		if n := len(c.times); n > 0 {
			last = max(last, c.times[n-1])
		}
	}
	return last
}

// percents are where the scale of shares has numbers.
var percents = []float64{0, 25, 50, 75, 90, 100}

// percentScale draws an upright scale of 0 to 100 % left of a rectangle, with
// lines across it.
func percentScale(s *sheet, r rect) scale {
	sc := scale{low: 0, high: 100, step: 25, from: r.y1, to: r.y0}
	for _, v := range percents {
		y := sc.at(v)
		switch v {
		case 90:
			s.line(grid, point{r.x0, y}, point{r.x1, y}, 0.4, soft, 1, 2)
		case 0, 100:
			s.line(grid, point{r.x0, y}, point{r.x1, y}, 0.6, pale)
		default:
			s.line(grid, point{r.x0, y}, point{r.x1, y}, 0.3, pale)
		}
		text := number(v) + " %"
		s.text(r.x0-5-s.width(text, rulerStyle), y+2.5, text, rulerStyle)
	}
	s.line(grid, point{r.x0, r.y0}, point{r.x0, r.y1}, 0.6, black)
	return sc
}

func (p *panelOdds) draw(s *sheet, a axis, top float64) float64 {
	area := rect{a.x0, top + 6, a.right(), top + p.high - 5}
	sc := percentScale(s, area)
	if !p.barred() { // else it stands beside the bars
		s.nameIn(rect{margin, top + 2, a.x0 - 34, top + p.high - 2}, clean(p.milestone.Name), nameStyles...)
	}
	names := placer{space: rect{a.x0 + 2, top + 1, a.right(), top + p.high}}
	lines := make([][]point, len(p.curves))
	var bands [][]point
	for i := range p.curves {
		c := &p.curves[i]
		lines[i] = c.steps(a, sc)
		if len(lines[i]) > 0 {
			names.drawn = append(names.drawn, lines[i])
			bands = append(bands, c.hatch(s, a, sc, i)...)
			c.lineLook.draw(s, lines[i])
			p.marks(s, c, a, sc)
		}
	}
	p.target(s, a, area, &names)
	names.soft = bands
	for i := range p.curves {
		c := &p.curves[i]
		said := c.said(p.many)
		if said == "" {
			continue
		}
		by := []point{{a.x0, sc.at(0)}}
		if len(lines[i]) > 0 {
			by = halfway(lines[i])
			if len(c.times) < c.runs { // by the end, which tells it
				by = pointsBy(lines[i], len(lines[i])-1)
			}
		}
		if !names.label(s, said, c.style(), by) {
			c.name = said
			p.nameless = append(p.nameless, *c)
		}
	}
	return p.high
}

// said is what stands beside a curve.
func (c *curve) said(many string) string {
	never := c.runs - len(c.times)
	switch {
	case c.runs == 0:
		return joined(c.name, "nothing played")
	case len(c.times) == 0:
		return joined(c.name, "never")
	case never > 0:
		return joined(c.name, "never in "+ofHundred(never, c.runs)+" "+many)
	}
	return c.name
}

func joined(name, more string) string {
	if name == "" {
		return more
	}
	return name + ", " + more
}

// steps returns the curve as a line, level to the right end only where it does
// not come up to 100 %; what is nearer together than half a point is drawn as
// one step.
func (c *curve) steps(a axis, sc scale) []point {
	var line []point
	if len(c.times) == 0 {
		return nil
	}
	x, y := a.x(c.times[0]), sc.at(0)
	line = append(line, point{x, y})
	for i, at := range c.times {
		if at > a.length {
			break
		}
		if next := a.x(at); next > x+0.5 {
			line = append(line, point{next, y})
			x = next
		}
		y = sc.at(100 * float64(i+1) / float64(c.runs))
		if last := &line[len(line)-1]; len(line) > 1 && last.x == x && line[len(line)-2].x == x {
			last.y = y
		} else {
			line = append(line, point{x, y})
		}
	}
	if len(c.times) < c.runs {
		line = append(line, point{a.x1, y})
	}
	return line
}

// hatch draws the band of confidence as fine upright strokes from where the
// curve leaves the foot to where it rises no more, and returns its edges. The
// strokes of different orders stand side by side.
func (c *curve) hatch(s *sheet, a axis, sc scale, which int) [][]point {
	from, to := a.x(c.times[0]), a.x(c.times[len(c.times)-1])
	if len(c.times) < c.runs {
		to = a.x1
	}
	band := 100 * Band(c.runs)
	share := func(x float64) float64 { return 100 * c.share(sim.Time(float64(a.length)*(x-a.x0)/(a.x1-a.x0))) }
	low := func(x float64) float64 { return sc.at(share(x) - band) }
	high := func(x float64) float64 { return sc.at(share(x) + band) }
	return hatchBand(s, from, to, low, high, c.stroke, which)
}

// target draws the line of the target and says when it is.
func (p *panelOdds) target(s *sheet, a axis, area rect, names *placer) {
	by := p.milestone.By
	if by == sim.Never {
		return
	}
	text := clean(p.milestone.ByText)
	if text == "" {
		text = about(by)
	}
	text = "by " + text
	if by > a.length {
		names.label(s, text+" (later than this)", targetStyle, []point{{a.right(), area.y1 - 8}})
		return
	}
	x := a.x(by)
	s.line(grid, point{x, area.y0 - 4}, point{x, area.y1}, 1, aim, 4, 2)
	names.drawn = append(names.drawn, []point{{x, area.y0 - 4}, {x, area.y1}})
	var along []point
	for _, share := range []float64{0.95, 0.05, 0.8, 0.2, 0.5, 0.65, 0.35} {
		along = append(along, point{x, area.y0 + float64(share*area.height())})
	}
	names.label(s, text, targetStyle, along)
}
