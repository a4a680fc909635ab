package fast

// sendJoiners sends free people to tasks on which work goes on, detail by
// detail, in sequence.
func (w *Worker) sendJoiners() bool {
	w.stirred = false
	sent := false
	for di := range w.details {
		det := &w.details[di]
		if det.words == 1 && w.join[det.first] == 0 || w.freeIn(int32(di)) == 0 {
			continue
		}
		for k, m := range w.join[det.first : det.first+det.words] {
			for ; m != 0; m &= m - 1 {
				sent = w.joinTask(det.sequence[int32(k)<<6|lowest(m)], int32(di)) || sent
				if w.freeIn(int32(di)) == 0 {
					break
				}
			}
		}
	}
	return sent
}

func (w *Worker) joinTask(i, di int32) bool {
	j, t := &w.jobs[i], &w.tasks[i]
	room := int32(t.Crew.Max) - j.there - j.onWay
	if room <= 0 {
		return false
	}
	w.candidates(t, di)
	sent := false
	for k, who := range w.picker.order {
		if room == 0 || t.each && w.mostFor(t, 1) < 1 {
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
	return sent
}
