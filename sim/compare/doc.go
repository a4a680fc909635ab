// Package compare holds drills of one scenario against each other under the
// same luck.
//
// [Play] plays drills, run by run, with the same seed: run k of one order meets
// the same lengths, mishaps, arrivals and weather as run k of every other, so
// that what differs is the order. [LeaveOut] plays a drill without each task
// that can wait. [WhatMoves] asks which tasks a milestone hangs on,
// [ShareLuck] what of all that is drawn.
//
// Results do not depend on the number of workers. Nothing here prints or reads
// a file; warmby/sim/stats turns times into figures.
package compare
