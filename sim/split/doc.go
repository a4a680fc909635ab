// Package split tries out team sizes and splits of a team into groups.
//
// [Game.Size] looks for the best split of so many people, and for a better order by
// package search, and compares them with the orders that are there. [Game.Worth]
// tells what would win how much: a better order, one more person, tool, stove or
// skill, a better-packed load, each under an order that is good with it. Everything
// meets the same luck. The search chooses on runs of a seed of its own, and what is
// told comes from other runs, so that the luck of the search does not flatter it.
//
// What is soonest at one milestone may ruin the evening. So a split is best only
// where all is well about as often as with the best order there is (guard.go): races
// ask it late, the search for a better order has it as a limit.
//
// One more person can make a drill longer (R. L. Graham, SIAM J. Appl. Math. 17
// (1969) 416-429): people take up work in an order that was good for fewer.
// Nothing here hides it.
//
// Results do not depend on the number of workers. Nothing here prints or reads
// a file: package split says what a team is worth at each size.
package split
