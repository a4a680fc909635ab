package sim

// Luck is one set of draws for a drill: what two orders of the same scenario
// have in common in the same run. Package warmby/sim/draw makes them.
type Luck struct {
	// Amount is the drawn length of each task in milliseconds, before the
	// crew counts: person-milliseconds for Work, clock time for Timed and Takes, 0
	// for Melt and Warm. The day's factor is in those of Work and Timed.
	Amount []Time
	// Mishap is what mishaps add to each task, all of them together.
	Mishap []Time
	// Mishaps is how many there were of each.
	Mishaps []int
	Person  []Time // when each person arrives
	Load    []Time // when each load arrives
	Weather int    // which weather case; 0 when there is none
}
