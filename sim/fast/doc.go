// Package fast plays drills by the million.
//
// [Compile] turns a drill into arrays and bit sets once; a [Worker] of the
// program then plays run after run without allocating. It gives the same
// times as warmby/sim/reference, to the millisecond, and, when asked, the
// same timeline.
//
// What makes it fast: tasks that may start as bits in the sequence of their
// group, so that no list is scanned; pending events in one small sorted
// array, with one slot for each task under way that is changed in place, and one
// for a whole crew that walks;
// people as bits by how many skills they have, so that the crew to call is a
// few operations; rates from a table; weather, light and lookouts as single
// moments beside the queue; only those groups gone through for which something
// has come free or ready.
//
// Three ways of playing are chosen from when a drill is compiled: people as
// bits of a word, or as a list where there are more than 64; and one loop
// (plain.go) for drills in which nobody walks, joins or is pulled away and no
// stove burns. All give the same times.
//
// A Program may be shared; a Worker belongs to one goroutine.
package fast
