package search

// twoSided is an evolutionary search over schedules of a plain drill that can be
// turned round, with two populations: schedules with everything as soon as it can be,
// and with everything as late. Two of one side have a child, which the serial scheme
// makes a schedule of the other side. So every schedule made is a new one and an
// improvement of its parents from the other end, where forward-backward improvement
// of each child takes three schedules (D. Debels and M. Vanhoucke, Lecture Notes in
// Computer Science 3483 (2005), 378-387; the two-point crossover is that of
// S. Hartmann, Naval Research Logistics 45 (1998), 733-750).
//
// One child in some is made by the parallel scheme, whose schedules are close where much
// is scarce, and do not reach every optimum (R. Kolisch, EJOR 90 (1996), 320-333; both
// schemes in one population: S. Hartmann, Naval Research Logistics 49 (2002), 433-448).
//
// Each schedule has a place, and a child stands in for the one whose place its parent
// has on the other side, if it is no longer; it is given up as soon as it must be.
// Populations that get no better are begun anew, twice as large, so that a longer
// search looks in more places and still begins as a shorter one does.
type twoSided struct {
	*evolution
	frames [2]*plain // of the schedules bred: of side 0 the drill, of side 1 the drill turned round
	sides  [2][]sided
	seen   [2]map[uint64]bool
	size   int
}

// sided is a schedule on one side: everything in it starts, in the time of the frame
// of that side, as late as it can.
type sided struct {
	span  int32
	list  []int32 // by start
	start []int32
}

const (
	firstSize   = 40 // schedules on a side
	quietPasses = 3  // passes over both sides in which nothing gets better
	movedJobs   = 2  // that a mutation moves, on average
	parallelOne = 5  // one child in so many is made by the parallel scheme
)

func newTwoSided(e *evolution) *twoSided {
	return &twoSided{evolution: e, frames: [2]*plain{e.p, e.p.mirror}, size: firstSize}
}

// run searches from some lists on.
func (t *twoSided) run(seeds [][]int32) individual {
	for ; !t.done(); t.size *= 2 {
		t.begin(seeds)
		seeds = nil
		for quiet := 0; quiet < quietPasses && !t.done(); quiet++ {
			if t.pass() {
				quiet = 0
			}
		}
	}
	return t.best
}

// begin fills both sides, from some lists and from sampled ones.
func (t *twoSided) begin(seeds [][]int32) {
	for side := range t.sides {
		t.sides[side], t.seen[side] = nil, map[uint64]bool{}
	}
	for tries := 0; len(t.sides[1]) < t.size && tries < 4*t.size && !t.done(); tries++ {
		if tries < len(seeds) {
			copy(t.list, seeds[tries])
		} else {
			t.sample()
		}
		t.admit(1, t.size)
	}
	for k := 0; k < len(t.sides[1]) && !t.done(); k++ {
		copy(t.list, t.sides[1][k].list)
		t.admit(0, t.size)
	}
}

// pass breeds a child for every place of both sides. It reports whether any of them is
// better than the one it stands in for.
func (t *twoSided) pass() (better bool) {
	for side := range t.sides {
		for place := range min(len(t.sides[0]), len(t.sides[1])) {
			if t.done() {
				return better
			}
			t.breed(side, place)
			if t.admit(1-side, place) {
				better = true
			}
		}
	}
	return better
}

// breed writes a child of the schedule of a place and of another of its side into the
// list.
func (t *twoSided) breed(side, place int) {
	all := t.sides[side]
	mother, father := place, t.random.IntN(len(all))
	if other := t.random.IntN(len(all)); all[other].span < all[father].span {
		father = other
	}
	if t.random.IntN(2) == 0 {
		mother, father = father, mother
	}
	n := len(t.list)
	middle := n/4 + t.random.IntN(n/2+1) // jobs in the father's sequence
	from := t.random.IntN(n - middle + 1)
	t.cross(all[mother].list, all[father].list, from, from+middle)
	t.mutate(t.frames[side], movedJobs, n)
}

// admit makes a schedule of the list, which is one of the other side's frame, and takes
// it into a side: into a place, unless it is longer than the one there, or beside the
// others. It reports whether it is better than the one there was.
func (t *twoSided) admit(side, place int) bool {
	frame, all := t.frames[1-side], t.sides[side]
	limit := int32(1 << 30)
	if place < len(all) {
		limit = all[place].span
	}
	scheme := t.s.serialWithin
	if t.random.IntN(parallelOne) == 0 {
		scheme = t.s.parallelWithin
	}
	span, ok := scheme(frame, t.list, limit)
	if !ok {
		return false
	}
	n := len(t.list)
	in := sided{span: span, list: make([]int32, n), start: make([]int32, n)}
	t.reverse(t.turn, t.list)
	t.s.byEnd(frame, in.list, t.turn, span)
	copy(in.start, t.s.key)
	t.note(side, in)
	h := hash(in.start)
	if t.seen[side][h] {
		return false
	}
	t.seen[side][h] = true
	if place >= len(all) {
		t.sides[side] = append(all, in)
		return true
	}
	all[place] = in
	return span < limit
}

// note keeps the best schedule, as a list by start.
func (t *twoSided) note(side int, in sided) {
	if in.span >= t.best.span {
		return
	}
	t.best = individual{span: in.span, forward: in.list}
	if side == 1 {
		t.best.forward = make([]int32, len(t.list))
		t.s.byStart(t.best.forward, t.list)
	}
}
