package checker

// reading is one way to read the three points on which the rules of allocation
// can honestly be read two ways. A timeline must follow one of them from
// beginning to end; the zero value is the one that the words favour.
type reading struct {
	// later: what needs no walk (a crew that is whole at its call and so
	// begins, a relief that takes over, a joiner) is an event like any other,
	// handled when the instant is gone through again, and so counts only
	// then. The words "what an allocation starts counts at once for the tasks
	// looked at after it" favour at once.
	later bool
	// pullAgain: a place for which nobody could be spared tries to pull again
	// at every allocation. The words "nobody can be spared: as wait" favour
	// that it waits for somebody to come free.
	pullAgain bool
	// timerFirst: a relief that arrives at the very moment of the next relief
	// still counts as on the way then, so that the place is owed no other.
	// "Walkers arrive, then people are allocated" favours that it has arrived
	// and the place is owed another.
	timerFirst bool
}

// readings lists all of them, the one favoured first.
func readings() []reading {
	var list []reading
	for i := range 8 {
		list = append(list, reading{later: i&1 > 0, pullAgain: i&2 > 0, timerFirst: i&4 > 0})
	}
	return list
}
