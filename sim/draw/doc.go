// Package draw turns a seed into the luck of a run: how long each task takes,
// what goes wrong, who arrives when, and which way the weather goes.
//
// [Run] draws a [sim.Luck] for a drill and [Usual] gives the one that holds
// when nothing is drawn. A [Sampler] does both again and again without
// allocating. [PERT], [LogNormal] and their like are the laws that a scenario
// can ask for.
//
// # Streams
//
//	seed ──┬─ run 0 ──┬─ "pitch the tent", work ── 0, 1, 2 ..
//	       │          ├─ "pitch the tent", mishap ── 0, 1, 2 ..
//	       │          └─ "Aila", arrives ── 0, 1, 2 ..
//	       └─ run 1 ── ..
//
// Every draw is one number, evenly spread between 0 and 1, found from seed,
// run, a name, a purpose and a place in line by mixing bits: there is no
// state, and no draw depends on what else was drawn. So two orders of one
// scenario meet the same luck, a new task changes nothing for the old ones,
// and a task keeps its number when its law changes. Each number is then
// turned by the inverse distribution function of the law.
//
// # Same bits everywhere
//
// Streams use integer arithmetic. Laws use their own logarithm, exponential
// and tables, with every product rounded before it is added to (a processor
// may otherwise fuse the two), so that a seed gives the same milliseconds on
// every processor.
//
// Everything here may be used by any number of goroutines at once.
package draw
