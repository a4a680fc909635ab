// Package fast plays drills by the million.
//
// [Compile] turns a drill into arrays and bit sets once; a [Worker] of the
// program then plays run after run without allocating. It gives the same
// times as warmby/sim/reference, to the millisecond, and, when asked, the
// same timeline.
//
// What makes it fast: tasks that may start as bits in the sequence of their
// detail, so that no list is scanned; pending events in one small sorted
// array, with one slot for each task under way that is changed in place;
// people as bits ranked so that the crew to call is the lowest ones; rates
// from a table; weather, light and lookouts as single moments beside the
// queue.
//
// A Program may be shared; a Worker belongs to one goroutine.
package fast
