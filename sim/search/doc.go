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
// # Where only lengths, tools and people count
//
// Then an order is a schedule of the resource-constrained project scheduling problem,
// and is searched as one: lists decoded by the serial scheme, bred on two sides
// (twoSided; with skills, or with lags from a start, by forward-backward improvement
// of each child). What it finds with 5,000 and with 50,000 schedules, seed 1, in
// percent: above the optimum of PSPLIB j30 (480 instances; 50,000 on one in three),
// above the critical path of projects made as those of j60 and j120 were (48 and 60
// of them; the sets themselves were not at hand, and made ones are not to be held
// against values published for them). Before: populations of 100 from the start, more
// mutation, and no parallel scheme.
//
//	              5,000  before   50,000  before
//	j30           0.043  0.053    0.000   0.000
//	as j60        11.77  11.97    11.41   11.54
//	as j120       32.64  34.43    31.23   31.78
//
// A schedule of 60 jobs takes some 7 millionths of a second, of 120 jobs some 15
// (WARMBY_LONG=1 go test -v -run Quality ./sim/search). Of mutations, more than some
// two jobs of a child cost most: with one job in twenty, children of 120 jobs are
// spoilt. Beginning with 100 schedules on a side would find some tenth of a point more
// on 120 jobs with 50,000 schedules, and lose more with 5,000. No gain came of:
// mutations in one stretch of the list only; another choice of parents; the parallel
// scheme for every second child; a crossover that keeps the stretch of highest use
// whole, or mixes keys job by job; telling schedules of one length apart by how early
// their work is done; and adding to a population that is stuck instead of beginning
// anew.
//
// # Where more counts
//
// All well on 5,000 fresh evenings, mean of seeds 1 to 4, with 50,000 and with 150,000
// drills; and with 150,000 before changes that change nothing were drawn again and
// orders far behind with usual values left out. The time is that of a processor for
// 150,000, with judging; it has stayed the same.
//
//	               50,000  150,000  before
//	kestrel-fell   0.608   0.621    0.611    7 s
//	ravengill      0.667   0.690    0.696    7 s
//	lake-ossamer   0.685   0.713    0.693   20 s
//	harl-plateau   0.822   0.858    0.823    6 s
//
// Seeds scatter by 0.03, in lake-ossamer by 0.08, and the best of many reach 0.76 in
// ravengill, 0.78 in lake-ossamer and 0.90 in harl-plateau: what is short is a way out
// of one good order to a better one that is unlike it. No gain that 8 to 24 searches
// could tell came of: more of the drills for small changes around the archive, or for
// plans with usual values only; half as many runs for plans tried first, or a third as
// many for the archive; asking more of an order in each lap of a race; trying changes
// on ten orders of the archive and not on four, up to six at a time, or after crossing
// them with others; four islands, or one for each number of groups; and moving tasks
// past those that the usual evening has them wait for.
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
