// Package review lays a drill that was timed beside what was foretold of it.
//
// [Of] plays the evening again with the lengths that the log gives (package
// warmby/sim/fit) and says which tasks ran over and what that did to the
// milestones, who waited for what, what another order would have given, and
// which two things are worth changing. It holds no words: reports are made of
// what it returns.
//
// # Another order with the works as timed
//
// Works, fixed times and mishaps go with their tasks into every order. A task
// that the log does not have takes what was foretold; one that had not ended
// takes what was foretold or as long as it had been worked on, whichever is more.
// Melts and warm-ups burn as hot as they did that evening.
package review
