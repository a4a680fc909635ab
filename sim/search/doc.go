// Package search looks for a better order of a drill, and says how far it can
// be from the best possible, which warmby/sim/bound works out.
//
// Most callers want [Improve].
//
// # What is searched
//
// An order is a priority list of tasks, the groups and who is in them, which
// tasks each group has, how tasks are narrowed in their crews, the rule of each
// group and to whom it lends its people. Every order is tried by playing the
// drill with the engine: what is optimised is what will be done.
//
// What is aimed at is a milestone, reached soon, or a share of evenings: all targets
// met, nobody too cold, or both ([AllWell]). The same shares, and single
// milestones, may be limits. A limit that is missed in the runs of the search is
// added to the aim, and limits are kept with margins of several widths, because
// an order that just keeps one in these runs breaks it in half of all others.
//
// With several cases (drills that the drill may turn into) every order is played
// in all of them under the same luck, and is as good as in its latest case.
//
// # What is promised
//
// The same drill, options and seed give the same result on any number of workers,
// and with aims in any sequence. Gains are judged on runs that the search has not
// seen. The search's own best stays first unless these runs clearly favour
// another, or it does no better than the order there was, or another is as good
// and easier to remember.
//
// A longer search begins as a shorter one does and goes on: on its own runs its
// answer is never worse, before it is made easier to remember.
//
// # What is not
//
// The order found is not proved to be the best. What is proved is the bound.
package search
