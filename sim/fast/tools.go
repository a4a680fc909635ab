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

// words returns how many words all kinds of tools take.
func (p *Program) toolWords() int { return (len(p.d.Tools) + lanes - 1) / lanes }

// lanesOf returns the tools that a task needs whatever its crew; those that
// each person needs are not in it.
func (p *Program) lanesOf(t *task) []uint64 {
	if len(t.tools) == 0 {
		return nil
	}
	need := make([]uint64, p.toolWords())
	for _, n := range t.tools {
		word, shift := laneOf(n.tool)
		need[word] += uint64(n.count) << shift
	}
	return need
}

// toolsFree reports whether the tools that a task needs whatever its crew are
// free.
func (w *Worker) toolsFree(t *task) bool {
	for k, need := range t.needs {
		if (w.tools[k]|guards-need)&guards != guards {
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
	for k, need := range t.needs {
		w.tools[k] -= need
	}
	if t.each {
		w.addEach(t, -crew)
	}
}

// giveBack gives back what a task held.
func (w *Worker) giveBack(t *task, crew int32) {
	for k, need := range t.needs {
		w.tools[k] += need
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
