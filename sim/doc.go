// Package sim says what a drill is and what a timeline of one looks like.
//
// A [Drill] is one scenario played under one order, in plain numbers: no
// file, no unit to convert, no name to look up. A [Luck] is one set of draws
// for it. An engine (see warmby/sim/reference) plays a drill with a luck and
// gives a [Timeline]: who did what from when to when.
//
// # Time and work
//
// [Time] counts whole milliseconds since the team arrived. Work counts
// millionths of a person-millisecond, so that a crew's rate (millionths of a
// person-millisecond done each millisecond) times a length of time is exact
// in integers. Every engine that follows the rules gives the same integers.
//
// # What is decided here
//
// The functions that more than one engine must agree on live here, because
// they are the meaning of a drill and not a way of playing it: the rate of a
// crew ([Task.Rate]), which people make up a crew ([Picker]), what the
// conditions outside are and when they change ([Drill.Steps]), and how a
// drill order becomes complete sequences ([Drill.Under]).
//
// # What is deliberately absent
//
// Nothing in this package opens a file, prints, reads the environment or asks
// the wall clock, and there is no global state: a drill can be played a
// million times in parallel and gives the same bytes each time.
package sim
