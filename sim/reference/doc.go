// Package reference plays a drill with people as processes.
//
// It is written to be read beside the manual of scenarios, sentence by
// sentence: a process for everybody who walks (person.go), for every task under way
// (job.go), for every lookout (lookout.go), and a chief who, once everything of
// one instant has happened, hands out the work (chief.go, allocate.go,
// join.go). The clock and the event queue are those of
// github.com/fschuetz04/simgo.
//
// [Play] is right for telling one drill and as the measure for faster
// engines. A played drill keeps some memory for good (the library sets
// finalizers on events that refer to each other), so play millions of runs
// with another engine.
//
// The same drill with the same luck gives the same timeline. Play is safe for
// concurrent use with different arguments and does not change them.
package reference
