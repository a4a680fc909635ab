package fast

import (
	"math/bits"
	"slices"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/heat"
)

// Program is a compiled drill.
type Program struct {
	d       *sim.Drill
	sampler *draw.Sampler
	steps   [][]sim.Step // by weather case
	rows    []int32      // by weather case: how many steps those before it have

	people  []member
	wide    bool       // more people than bits in a word
	classes []uint64   // people by number of skills, fewest first, when not wide
	ranks   []crowd    // the same when wide
	even    bool       // all paces are 1000
	still   bool       // nobody ever walks
	quick   bool       // crews are there at once, whoever they are
	bulk    bool       // crews are called as bits: nobody walks or is pulled from a task
	walks   []sim.Time // by to spot * spots + from spot
	spots   int

	tasks     []task
	groups    []group
	lends     bool // whether any group lends its people
	loads     []load
	lookouts  []lookout
	hurts     bool        // whether anybody is hurt
	outAtOnce bool        // whether somebody hurt may come free where a task starts
	tied      bool        // whether any lookout is tied to tasks, see ties
	named     bool        // whether some tasks are for some people only
	airs      bool        // whether any is followed, see below
	follows   []bool      // by shelter: whether its air counts before a warm-up
	plain     *plainDrill // nil when it is not
	asks      map[asking]int32
	all       uint64 // all groups
	words     []word // of all groups together, one after the other
	calls     []call // the same by position

	does     []uint64 // by person, and word: the positions of tasks that they may be on
	anywhere []uint64 // all positions
	told     []uint64 // the memory of what tasks and lookouts have as news

	// How a run begins.
	segments []segment
	tools    []uint64
	lanes    lanes
	pending  []int32

	slots   int     // room for the crews of all tasks together
	warmers []int32 // warm-ups
	slowed  []int32 // tasks that weather and light slow
}

// member is a person.
type member struct {
	pace   int64
	skills sim.SkillSet
	group  int32
	begin  int32 // spot
}

// task is what playing needs to know of a task, what is asked for most first.
type task struct {
	able      uint64 // people with the skills asked of everyone
	need      uint64 // tools needed whatever the crew, in lanes: the first word of Worker.tools
	back      uint64 // those free when it ends: what was needed, and what its item brings
	low, high int32
	stride    int32 // of rates: high + 1, or 0 when nothing ever slows it otherwise
	spot      int32
	stove     int32    // -1 for none
	item      int32    // that it unloads, -1 for none
	pending   int32    // how many things it waits for at the start
	crew      int32    // first of its slots for people
	shares    uint64   // groups with tasks among peers
	news      []uint64 // the positions of its peers in all groups, nil where it has none
	kind      uint8    // a sim.Kind
	asks      int32    // which of the program's asks it has, -1 for one of its own
	nobody    bool     // needs nobody
	worked    bool
	joinable  bool
	each      bool // whether any tool is needed by each
	makes     bool
	odd       bool       // whether more has to be asked before its start than for tools and people
	tied      bool       // whether people at lookouts may count as free for it
	roles     bool       // whether roles have yet to be filled by some of those able
	plain     bool       // whether its end gives back its people and what is in need, and no more
	heeded    bool       // whether anything hangs on its start: tasks after it, or lookouts
	unit      uint64     // of work in a millisecond of what is drawn
	at        []position // where it stands in the sequences of the groups
	spread    []position // the same where a call means anything at other places than the one by which it is called, else nil
	afterEnd  []follower // tasks that come after its end, or wait for its item
	afterFrom []follower // after its start
	rates     []int64    // by (row + step) * stride + people, when all paces are 1000
	slowed    []int64    // by row + step, or one only
	effective []int64    // e_n
	tools     []toolNeed
	more      []uint64  // what comes after need, when there are more kinds of tools than fit a word
	moreBack  []uint64  // what comes after back
	brings    []brought // stoves that its item brings
	peers     []int32   // tasks that need a tool or a stove of those that it holds or brings
	fixed     sim.Time  // length of a melt or, when it may be slowed, of its heating
	handling  sim.Time  // of a melt that may be slowed
	puts      []int32   // kinds of stove that it puts out
	in        int32     // the shelter of its spot, -1 outdoors
	crowd     crowd     // the same as able, when wide
	ties      *ties     // nil for most
	asked     sim.SkillSet
	*sim.Task
}

// toolNeed is a sim.ToolNeed in fewer bytes; count is 0 when each person needs
// one.
type toolNeed struct{ tool, count int32 }

// brought is so many stoves of a kind.
type brought struct{ stove, count int32 }

type follower struct {
	task int32
	lag  sim.Time
}

// position is a task in the sequence of a group: a bit of a word of its bit sets.
type position struct {
	bit         uint64
	word, group int32
	counts      bool // whether anything in its group hangs on its being called
	inTurn      bool // whether its group goes in turn
}

// call is what is asked for a task to be called from its place in a sequence: what
// a look at it needs, side by side.
type call struct {
	need, able uint64 // tools, and who may be on it, as for a task; of able only those of the group unless some are lent
	low, high  int32
	task       int32
	odd, tied  bool // as for a task
	t          *task
	alike      uint64 // the places after it in its word that ask for just the same
}

// word is a word's worth of the sequence of a group.
type word struct {
	calls []call // by bit
	fit   crews
}

type group struct {
	first  int32 // word of the program
	end    int32 // the word after its last
	lead   int32
	inTurn bool
	then   uint64 // groups to which it lends its people
	own    uint64 // people, when not wide
	crowd  crowd  // people, when wide
	counts int32  // how many of its tasks count
}

// smallCrews is up to which number of people free the tasks that could be
// filled are told apart.
const smallCrews = 5

// crews holds the positions of tasks whose smallest crew is at most n.
// The last is for all larger ones.
type crews [smallCrews + 1]uint64

type load struct{ top int32 } // the unloading of its top item, -1 for none

// lookout is a lookout of the drill with its people as bits.
type lookout struct {
	*sim.Lookout
	relief   sim.Time
	spot     int32
	ifNobody sim.IfNobody
	hurt     bool
	who      uint64   // the same people as bits, when not wide
	from     int32    // how many tasks must end before it begins
	tied     bool     // whether its places are for tasks to empty
	wants    uint64   // groups with tasks for which who stands there counts as free
	news     []uint64 // the positions of these tasks, in all groups
}

// Compile turns a drill into a program.
func Compile(d *sim.Drill) *Program {
	p := &Program{d: d, sampler: draw.NewSampler(d), wide: len(d.People) > 64}
	for w := range max(1, len(d.Weather)) {
		p.steps = append(p.steps, d.Steps(w))
		if w > 0 {
			p.rows = append(p.rows, p.rows[w-1]+int32(len(p.steps[w-1])))
		} else {
			p.rows = append(p.rows, 0)
		}
	}
	p.compilePeople()
	p.compileWalks()
	p.lanes = lanesFor(d)
	p.tools = make([]uint64, p.toolWords())
	for i := range d.Tools {
		p.lanes.add(p.tools, int32(i), int32(d.Tools[i].Count))
	}
	p.compileTasks()
	p.bulk = p.still && !p.wide
	p.compileLookouts()
	p.compileTies()
	p.quick = p.bulk && p.even
	p.outAtOnce = p.hurts && p.tied
	p.asks = map[asking]int32{}
	for i := range p.tasks {
		t := &p.tasks[i]
		t.tied = t.ties != nil && len(t.ties.gives) > 0
		t.heeded = t.ties != nil || t.afterFrom != nil
		p.pending = append(p.pending, t.pending)
		p.compileAsks(t)
	}
	p.compileGroups()
	for range d.Loads {
		p.loads = append(p.loads, load{top: -1})
	}
	for i := len(d.Items) - 1; i >= 0; i-- {
		p.loads[d.Items[i].Load].top = int32(i)
	}
	p.compilePlain()
	return p
}

func (p *Program) compileLookouts() {
	d := p.d
	for i := range d.Lookouts {
		l := lookout{Lookout: &d.Lookouts[i]}
		l.relief, l.spot, l.ifNobody, l.hurt = l.Relief, int32(l.Spot), l.IfNobody, l.Hurt
		l.from, l.tied = int32(len(l.FromTasks)), l.UnlessWorked || len(l.UntilTasks) > 0
		for _, person := range l.Who {
			l.who |= 1 << person
		}
		p.lookouts = append(p.lookouts, l)
		p.bulk = p.bulk && l.IfNobody != sim.Pull
		p.hurts = p.hurts || l.Hurt
	}
}

func (p *Program) compilePeople() {
	d := p.d
	p.even = true
	most := 0
	for _, person := range d.People {
		p.people = append(p.people, member{pace: person.Pace, skills: person.Skills, group: -1, begin: int32(person.Begin)})
		p.even = p.even && person.Pace == 1000 && person.Day == nil
		most = max(most, person.Skills.Count())
	}
	for n := range most + 1 {
		if p.wide {
			p.rank(n)
			continue
		}
		var class uint64
		for i := range p.people {
			if p.people[i].skills.Count() == n {
				class |= 1 << i
			}
		}
		if class != 0 {
			p.classes = append(p.classes, class)
		}
	}
	for i, det := range d.Groups {
		for _, person := range det.People {
			p.people[person].group = int32(i)
		}
	}
}

func (p *Program) compileWalks() {
	p.spots, p.still = len(p.d.Spots), true
	p.walks = make([]sim.Time, p.spots*p.spots)
	for a := range p.spots {
		for b := range p.spots {
			w := p.d.WalkTime(a, b)
			p.walks[b*p.spots+a] = w
			p.still = p.still && w == 0
		}
	}
}

func (p *Program) compileTasks() {
	d := p.d
	p.tasks = make([]task, len(d.Tasks))
	for i := range p.tasks {
		t := &p.tasks[i]
		t.Task = &d.Tasks[i]
		low, high := t.CrewBounds()
		t.low, t.high = int32(low), int32(high)
		t.spot, t.worked, t.stove = int32(t.Spot), t.Worked(), -1
		t.joinable = t.worked && t.Joinable
		p.compileAble(t)
		t.nobody, t.kind, t.item = t.Crew.Max == 0, uint8(t.Kind), int32(t.Item)
		for _, n := range t.Tools {
			need := toolNeed{int32(n.Tool), int32(n.Count)}
			if n.Each {
				need.count, t.each = 0, true
			}
			t.tools = append(t.tools, need)
		}
		p.compileNeeds(t)
		t.crew = int32(p.slots)
		p.slots += int(t.high)
		switch t.Kind {
		case sim.Melt:
			t.stove = int32(t.Melt.Stove)
			m := heat.Melt(&d.Site, &d.Stoves[t.Melt.Stove], t.Melt)
			if t.fixed = m.Time; len(t.Slowed) > 0 && m.Time != sim.Never {
				t.fixed, t.handling = m.Heating, m.Time-m.Heating
				p.compileSlowed(t)
			}
		case sim.Warm:
			t.stove = int32(t.Warm.Stove)
			p.warmers = append(p.warmers, int32(i))
		}
		t.makes, t.in = len(t.Makes) > 0, int32(d.Spots[t.Spot].In)
		for _, kind := range t.PutsOut {
			t.puts = append(t.puts, int32(kind))
		}
		t.plain = t.stove < 0 && len(t.puts) == 0 && len(t.brings) == 0 && !t.makes && !t.each && len(t.more) == 0
		if t.worked {
			p.compileRates(t)
		}
		if t.stride > 0 {
			p.slowed = append(p.slowed, int32(i))
		}
	}
	for i := range p.tasks {
		p.compileWaits(i)
	}
	p.compilePeers()
}

// compileAble works out who may be on a task at all: those with the skills
// asked of everyone and, where the whole crew has one and the same role, with
// that.
func (p *Program) compileAble(t *task) {
	t.roles = len(t.Roles) > 0
	all := t.All
	if len(t.Roles) == 1 && int(t.high) == t.Roles[0].Count {
		all, t.roles = all.With(t.Roles[0].Skill), false
	}
	if t.asked = all; p.wide {
		t.crowd = crowdOf(len(p.people))
	}
	for i, m := range p.people {
		may := p.d.MayDo(t.Task, i)
		p.named = p.named || !may
		switch {
		case !may || !m.skills.Holds(all):
		case p.wide:
			t.crowd.add(int32(i))
		default:
			t.able |= 1 << i
		}
	}
}

func (p *Program) compileRates(t *task) {
	t.unit = t.WorkUnits()
	for n := range t.high + 1 {
		t.effective = append(t.effective, sim.Effective(int(n), t.Teamwork))
	}
	p.compileSlowed(t)
	if t.stride > 0 {
		t.stride = t.high + 1
	}
	if !p.even {
		return
	}
	for _, slow := range t.slowed {
		for n := range t.high + 1 {
			t.rates = append(t.rates, sim.Rate(int(n), t.Teamwork, 1000*int64(n), slow))
		}
	}
}

// compileSlowed works out what slows a task by step, or once when that is always
// the same; its stride is over 0 when it is not.
func (p *Program) compileSlowed(t *task) {
	var slowed []int64
	varies := false
	for _, steps := range p.steps {
		slow := int64(1000)
		for k, s := range steps {
			if k == 0 || !t.SameConditions(&p.d.Site, steps[k-1], s) {
				slow = t.Slowed1000(&p.d.Site, s)
			}
			slowed = append(slowed, slow)
			varies = varies || slow != slowed[0]
		}
	}
	if varies {
		t.stride = 1
	} else {
		slowed = slowed[:1]
	}
	t.slowed = slowed
}

// compileWaits links a task to all that it waits for.
func (p *Program) compileWaits(i int) {
	t := &p.tasks[i]
	for _, a := range t.After {
		o := &p.tasks[a.Task]
		f := follower{int32(i), a.Lag}
		if a.FromStart {
			o.afterFrom = append(o.afterFrom, f)
		} else {
			o.afterEnd = append(o.afterEnd, f)
		}
		t.pending++
	}
	needs := t.Needs
	if t.Unloads() {
		if above := t.Item - 1; above >= 0 && p.d.Items[above].Load == p.d.Items[t.Item].Load {
			needs = []int{above}
		} else {
			t.pending++ // its load
		}
	}
	for _, item := range needs {
		o := &p.tasks[item]
		o.afterEnd = append(o.afterEnd, follower{int32(i), 0})
		t.pending++
	}
}

func (p *Program) compileGroups() {
	places := 0
	p.groups, p.words, p.lends = p.groups[:0], p.words[:0], false
	for di := range p.d.Groups {
		p.lends = p.lends || len(p.d.Groups[di].Then) > 0
		places += len(p.d.Groups[di].Sequence)
	}
	p.calls = sized(p.calls, places)
	calls, seen := p.calls, make([]uint64, len(p.asks))
	for di := range p.d.Groups {
		det := &p.d.Groups[di]
		c := group{lead: int32(det.Lead), inTurn: det.InTurn, counts: int32(len(det.Sequence) - det.Lead)}
		for _, n := range det.Then {
			c.then |= 1 << n
		}
		if p.wide {
			c.crowd = crowdOf(len(p.people))
		}
		for _, person := range det.People {
			if p.wide {
				c.crowd.add(int32(person))
			} else {
				c.own |= 1 << person
			}
		}
		n := len(det.Sequence)
		p.compileCalls(&c, di, calls[:n], seen)
		calls = calls[n:]
		p.groups = append(p.groups, c)
	}
	p.all = 1<<len(p.groups) - 1
	p.compileNews()
	n := len(p.words)
	p.told = sized(p.told, n*(len(p.tasks)+len(p.lookouts)))
	clear(p.told)
	for i := range p.tasks {
		p.compileShares(&p.tasks[i], p.told[n*i:][:n])
	}
	p.compileWants(p.told[n*len(p.tasks):])
	p.compileStart()
}

// asking is what must be free for a task to start that asks for nothing but tools and
// people: where one fails that asks for it, so does every other.
type asking struct {
	need, able uint64
	low        int32
}

// compileAsks works out what has to be asked before the start of a task: whether that
// is more than tools and people and, if not, which of the program's asks it is, -1 where
// lookouts have to do with it.
func (p *Program) compileAsks(t *task) {
	t.odd = p.wide || t.stove >= 0 || t.nobody || t.each || t.roles || t.more != nil
	if t.asks = -1; t.odd || t.ties != nil {
		return
	}
	a := asking{t.need, t.able, t.low}
	k, there := p.asks[a]
	if !there {
		k = int32(len(p.asks))
		p.asks[a] = k
	}
	t.asks = k
}

// compileCalls lays out what is asked for the tasks of a group, in some memory, word by
// word. It has seen, by which of the program's asks, what those after a place ask for.
func (p *Program) compileCalls(c *group, di int, calls []call, seen []uint64) {
	det := &p.d.Groups[di]
	c.first = int32(len(p.words))
	for begin := 0; begin < len(calls); begin += 64 {
		of, k := word{calls: calls[begin:min(len(calls), begin+64)]}, int32(len(p.words))
		clear(seen)
		for bit := len(of.calls) - 1; bit >= 0; bit-- {
			pos := begin + bit
			i := det.Sequence[pos]
			t := &p.tasks[i]
			t.at = append(t.at, position{1 << bit, k, int32(di), pos >= det.Lead && (det.InTurn || p.lends), det.InTurn})
			able, alike := t.able, uint64(0)
			if !p.lends {
				able &= c.own
			}
			if t.asks >= 0 {
				alike = seen[t.asks]
				seen[t.asks] |= 1 << bit
			}
			of.calls[bit] = call{t.need, able, t.low, t.high, int32(i), t.odd, t.tied, t, alike}
			for n := p.fewestFree(t); n <= smallCrews; n++ {
				of.fit[n] |= 1 << bit
			}
		}
		p.words = append(p.words, of)
	}
	c.end = int32(len(p.words))
}

// compilePeers works out which tasks the end of another may make possible by what
// it gives back or brings.
func (p *Program) compilePeers() {
	for i := range p.tasks {
		t := &p.tasks[i]
		for k := range p.tasks {
			if p.gives(t, &p.tasks[k]) {
				t.peers = append(t.peers, int32(k))
			}
		}
	}
}

// gives reports whether a task holds or puts out something that another needs.
func (p *Program) gives(t, o *task) bool {
	if t.stove >= 0 && t.stove == o.stove {
		return true
	}
	for _, kind := range t.puts {
		if kind == o.stove {
			return true
		}
	}
	for _, a := range t.tools {
		for _, b := range o.tools {
			if a.tool == b.tool {
				return true
			}
		}
	}
	return false
}

// compileShares works out in which groups, and at which positions, the end of a
// task may make another possible; that of an unloading may anywhere.
func (p *Program) compileShares(t *task, news []uint64) {
	t.shares, t.news = 0, nil
	if t.item >= 0 {
		t.shares, t.news = p.all, p.anywhere
		return
	}
	for _, k := range t.peers {
		for _, at := range p.tasks[k].at {
			t.news = news
			t.shares |= bitOf(at.group)
			news[at.word] |= at.bit
		}
	}
}

// compileNews works out which tasks hang on whom.
func (p *Program) compileNews() {
	n := len(p.words)
	p.does, p.anywhere = sized(p.does, n*len(p.people)), sized(p.anywhere, n)
	clear(p.does)
	for k := range p.anywhere {
		p.anywhere[k] = ^uint64(0)
	}
	for i := range p.tasks {
		t := &p.tasks[i]
		for _, at := range t.at {
			det := &p.groups[at.group]
			able := t.able
			if !p.lends {
				able &= det.own
			}
			for m := able; m != 0; m &= m - 1 {
				p.does[n*int(lowest(m))+int(at.word)] |= at.bit
			}
			for k, m := range t.crowd {
				for ; m != 0; m &= m - 1 {
					p.does[n*(k<<6|int(lowest(m)))+int(at.word)] |= at.bit
				}
			}
		}
	}
}

// compileStart works out how a run begins.
func (p *Program) compileStart() {
	p.segments = sized(p.segments, len(p.words))
	for k := range p.segments {
		p.segments[k] = segment{news: ^uint64(0)}
	}
	for i := range p.tasks {
		t := &p.tasks[i]
		if t.spread = t.at; len(t.at) == 1 && !t.at[0].counts {
			t.spread = nil
		}
		for _, at := range t.at {
			s := &p.segments[at.word]
			if t.pending == 0 {
				s.ready |= at.bit
			}
			if at.counts && at.inTurn {
				s.uncalled |= at.bit
			}
			if at.inTurn || p.hurts && t.tied {
				s.every |= at.bit
			}
		}
	}
}

// sized returns a slice of a length, the same one if it has room.
func sized[T any](of []T, n int) []T { return slices.Grow(of[:0], n)[:n] }

// bitOf returns the bit with an index from 0 to 63.
func bitOf(i int32) uint64 { return 1 << (uint32(i) & 63) }

// above returns all bits above the one with an index from 0 to 63.
func above(i int32) uint64 { return ^uint64(1) << (uint32(i) & 63) }

// lowest returns the index of the lowest bit.
func lowest(m uint64) int32 { return int32(bits.TrailingZeros64(m)) }
