// Package bound says what no order can beat: moments before which a milestone
// of a drill cannot be reached, whoever does what in whichever sequence.
//
// [New] prepares the bounds of a drill; [Bounds.Of] gives those of one luck.
package bound
