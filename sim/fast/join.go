package fast

// openJoin lets people join a task: it has room for more.
func (w *Worker) openJoin(t *task) {
	if w.takesJoiners(t) {
		return
	}
	w.joining++
	w.stirred = true
	for _, at := range t.at {
		w.segments[at.word].join |= at.bit
		w.joins |= 1 << at.group
	}
}

// closeJoin lets nobody join a task any more.
func (w *Worker) closeJoin(t *task) {
	if !w.takesJoiners(t) {
		return
	}
	w.joining--
	for _, at := range t.at {
		w.segments[at.word].join &^= at.bit
	}
}

func (w *Worker) takesJoiners(t *task) bool { return w.segments[t.at[0].word].join&t.at[0].bit != 0 }

// sendJoiners sends free people to tasks on which work goes on, group by
// group, in sequence.
func (w *Worker) sendJoiners() bool {
	w.stirred = false
	sent := false
	for m := w.joins; m != 0; m &= m - 1 {
		di := lowest(m)
		if w.freeIn(di) > 0 {
			sent = w.joinGroup(di) || sent
		}
	}
	return sent
}

// joinGroup sends free people of a group to tasks of its sequence that take
// joiners.
func (w *Worker) joinGroup(di int32) bool {
	det := &w.p.groups[di]
	sent, any := false, false
	for k := det.first; k < det.end; k++ {
		of := &w.p.words[k]
		m := w.segments[k].join
		any = any || m != 0
		for ; m != 0; m &= m - 1 {
			sent = w.joinTask(of.calls[lowest(m)].task, di) || sent
			if w.freeIn(di) == 0 {
				return sent
			}
		}
	}
	if !any {
		w.joins &^= 1 << di
	}
	return sent
}

// joinTask sends those of a group's free people to a task who would be there
// before it ends.
func (w *Worker) joinTask(i, di int32) bool {
	j, t := &w.jobs[i], &w.tasks[i]
	room := t.high - j.there - j.onWay
	if t.each {
		room = w.mostFor(t, room)
	}
	if room <= 0 {
		return false
	}
	w.candidates(t, di, false)
	sent := false
	for k, who := range w.picker.order {
		if room == 0 {
			break
		}
		if w.now+w.picker.walks[k] >= j.due {
			continue
		}
		room--
		if t.each {
			j.each++
			w.addEach(t, -1)
		}
		j.onWay++
		w.changed = w.now
		w.send(who, i)
		if w.picker.walks[k] == 0 {
			w.setRate(i) // who needs no walk counts for the next
		}
		sent = true
	}
	if j.there+j.onWay == t.high {
		w.closeJoin(t)
	}
	return sent
}
