// Package bound says what no order can beat: moments before which a milestone
// of a drill cannot be reached, whoever does what in whichever sequence.
//
// [New] prepares the bounds of a drill; [Bounds.Of] gives those of one luck, and
// [Bounds.Sharp], which takes longer, the nearest.
//
// How near they come: 3.61 % below the known optimum on average over PSPLIB j30, as
// good as it on 318 of 480, and 3.85 % below the best known over set 1a of the
// multi-skill problems, as good on 114 of 216. Without refuting moments (destructive
// improvement) that is 4.89 and 5.17 %, by [Bounds.Of] 5.00 and 5.37 %, without the
// critical sequence too 5.68 and 5.60 % (WARMBY_LONG=1 go test -v -run Bounds
// ./sim/search).
package bound
