// Package bound says what no order can beat: moments before which a milestone
// of a drill cannot be reached, whoever does what in whichever sequence.
//
// [New] prepares the bounds of a drill; [Bounds.Of] gives those of one luck, and
// [Bounds.Sharp], which takes longer, the nearest.
//
// How near they come: 4.89 % below the known optimum on average over PSPLIB j30,
// and 5.17 % below the best known over set 1a of the multi-skill problems; 5.00 and
// 5.37 % by [Bounds.Of], 5.68 and 5.60 % without the critical sequence (WARMBY_LONG=1 go test -v -run Bounds
// ./sim/search).
package bound
