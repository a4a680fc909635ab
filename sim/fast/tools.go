package fast

// Tools are counted in lanes of sixteen bits, four kinds to a word, so that
// what a task needs is looked at, taken and given back at a stroke. A lane's
// highest bit stays clear.
const (
	lanes    = 4
	laneBits = 16
	guards   = 0x8000_8000_8000_8000
	mostTool = 1<<(laneBits-1) - 1
)

// laneOf returns the word and the shift of a kind of tool.
func laneOf(tool int32) (word int, shift uint) {
	return int(tool / lanes), uint(tool%lanes) * laneBits
}

// toolWords returns how many words all kinds of tools take.
func (p *Program) toolWords() int { return max(1, (len(p.d.Tools)+lanes-1)/lanes) }

// compileNeeds works out the tools that a task needs whatever its crew, in
// lanes; those that each person needs are not among them.
func (p *Program) compileNeeds(t *task) {
	t.need, t.more = 0, nil
	if len(t.tools) == 0 {
		return
	}
	need := make([]uint64, p.toolWords())
	for _, n := range t.tools {
		word, shift := laneOf(n.tool)
		need[word] += uint64(n.count) << shift
	}
	t.need = need[0]
	if len(need) > 1 {
		t.more = need[1:]
	}
}

// moreFree reports whether the tools of a task beyond its first word are free;
// those in it are where (tools|guards-need)&guards is guards.
func (w *Worker) moreFree(t *task) bool {
	for k, need := range t.more {
		if (w.tools[k+1]|guards-need)&guards != guards {
			return false
		}
	}
	return true
}

// freeTools returns how many of a kind are free.
func (w *Worker) freeTools(tool int32) int32 {
	word, shift := laneOf(tool)
	return int32(w.tools[word] >> shift & mostTool)
}

// addTools makes some of a kind free, or takes them when n is negative. More
// than a lane holds is more than anybody needs.
func (w *Worker) addTools(tool, n int32) {
	word, shift := laneOf(tool)
	w.tools[word] += uint64(int64(n)) << shift
}

// takeTools takes what a task needs for a crew.
func (w *Worker) takeTools(t *task, crew int32) {
	w.tools[0] -= t.need
	for k, need := range t.more {
		w.tools[k+1] -= need
	}
	if t.each {
		w.addEach(t, -crew)
	}
}

// giveBack gives back what a task held.
func (w *Worker) giveBack(t *task, crew int32) {
	w.tools[0] += t.need
	for k, need := range t.more {
		w.tools[k+1] += need
	}
	if t.each {
		w.addEach(t, crew)
	}
}

// addEach adds to the tools of which each person on a task has one.
func (w *Worker) addEach(t *task, n int32) {
	for _, need := range t.tools {
		if need.count == 0 {
			w.addTools(need.tool, n)
		}
	}
}

// mostFor returns for how many people there are tools on a task that needs
// one for each, at most so many.
func (w *Worker) mostFor(t *task, most int32) int32 {
	for _, need := range t.tools {
		if need.count == 0 {
			most = min(most, w.freeTools(need.tool))
		}
	}
	return most
}
