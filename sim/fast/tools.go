package fast

import (
	"slices"

	"warmby/sim"
)

// Tools are counted in lanes of a word: one operation looks at what a task needs,
// takes it or gives it back. A lane's highest bit stays clear.
type lanes struct {
	bits   uint   // of a lane
	inWord int32  // lanes
	guards uint64 // the highest bit of each lane
}

// Lanes are as narrow as the most that there can ever be of a tool allows.
var (
	narrow = lanes{16, 4, 0x8000_8000_8000_8000}
	broad  = lanes{32, 2, 0x8000_0000_8000_0000}
)

// lanesFor returns lanes in which all tools of a drill can be counted.
func lanesFor(d *sim.Drill) lanes {
	there := make([]int, len(d.Tools))
	for i := range d.Tools {
		there[i] = d.Tools[i].Count
	}
	for i := range d.Items {
		for _, b := range d.Items[i].Brings {
			if b.Tool >= 0 {
				there[b.Tool] += b.Count
			}
		}
	}
	for _, n := range there {
		if n >= 1<<(narrow.bits-1) {
			return broad
		}
	}
	return narrow
}

// of returns the word and the shift of a kind of tool.
func (l *lanes) of(tool int32) (word int, shift uint) {
	return int(tool / l.inWord), uint(tool%l.inWord) * l.bits
}

// add adds to a kind of tool, or takes from it when n is negative.
func (l *lanes) add(tools []uint64, tool, n int32) {
	word, shift := l.of(tool)
	tools[word] += uint64(int64(n)) << shift
}

// toolWords returns how many words all kinds of tools take.
func (p *Program) toolWords() int {
	return max(1, (len(p.d.Tools)+int(p.lanes.inWord)-1)/int(p.lanes.inWord))
}

// compileNeeds works out the tools that a task needs whatever its crew, and
// those that are free when it ends, in lanes; those that each person needs are
// not among them.
func (p *Program) compileNeeds(t *task) {
	need, back := make([]uint64, p.toolWords()), make([]uint64, p.toolWords())
	for _, n := range t.tools {
		p.lanes.add(need, n.tool, n.count)
	}
	copy(back, need)
	if t.item >= 0 {
		for _, b := range p.d.Items[t.item].Brings {
			if b.Tool >= 0 {
				p.lanes.add(back, int32(b.Tool), int32(b.Count))
			} else {
				t.brings = append(t.brings, brought{int32(b.Stove), int32(b.Count)})
			}
		}
	}
	t.need, t.back = need[0], back[0]
	if !slices.Equal(back[1:], make([]uint64, len(back)-1)) {
		t.more, t.moreBack = need[1:], back[1:]
	}
}

// moreFree reports whether the tools of a task beyond its first word are free;
// those in it are where (tools|guards-need)&guards is guards.
func (w *Worker) moreFree(t *task) bool {
	guards := w.p.lanes.guards
	for k, need := range t.more {
		if (w.moreTools[k]|guards-need)&guards != guards {
			return false
		}
	}
	return true
}

// freeTools returns how many of a kind are free.
func (w *Worker) freeTools(tool int32) int32 {
	l := &w.p.lanes
	word, shift := l.of(tool)
	return int32(*w.toolWord(word) >> shift & (1<<(l.bits-1) - 1))
}

// takeMore takes what a task needs for a crew beyond the first word.
func (w *Worker) takeMore(t *task, crew int32) {
	for k, need := range t.more {
		w.moreTools[k] -= need
	}
	if t.each {
		w.addEach(t, -crew)
	}
}

// giveBack gives back what a task held, and what it brings.
func (w *Worker) giveBack(t *task, crew int32) {
	w.tools += t.back
	for k, back := range t.moreBack {
		w.moreTools[k] += back
	}
	if t.each {
		w.addEach(t, crew)
	}
}

// addEach adds to the tools of which each person on a task has one.
func (w *Worker) addEach(t *task, n int32) {
	for _, need := range t.tools {
		if need.count == 0 {
			word, shift := w.p.lanes.of(need.tool)
			*w.toolWord(word) += uint64(int64(n)) << shift
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

// toolWord returns one of the words in which free tools are counted.
func (w *Worker) toolWord(word int) *uint64 {
	if word == 0 {
		return &w.tools
	}
	return &w.moreTools[word-1]
}
