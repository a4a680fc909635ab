// Package fit learns lengths of tasks from drills that were timed.
//
// Most callers want [Fit]: timed drills (package warmby/sim/timed) and the drill
// of the scenario go in; out comes a [Fitted], which says for each task what the
// log says, what the file says and what to plan with, and foretells the next
// drill ([Fitted.Foretell]). [Leave] says how well it foretells, by leaving out
// one drill at a time. [Wright] is the learning curve.
//
// # The model
//
// The logarithm of the amount of task i in drill d (the work with the crew as it
// changed, slow-downs and paces of the file taken out; fixed times as they are)
// is
//
//	y = m + D + t + c + x g + e
//	    m      of the file: its median
//	    D      the shift of all work, or of all fixed times, against the file
//	    t      of the task:   normal, 0, w
//	    c      of the drill:  normal, 0, h     its day; acts on work only
//	    x g    conditions, learning, paces
//	    e      of this time:  normal, 0, s     s differs from task to task
//	    s^2    v k s0^2 / chi2(v)              s0 the file's spread
//
// so that a task of which there are few rows leans on the file and on what the
// others say of it, by level and by spread (partial pooling). The file's level
// is worth s^2/w^2 drills, which is printed. All of it is drawn by Gibbs
// sampling with fixed seeds; censored rows (not ended, or with a mishap of
// unknown length) are filled in at each sweep.
//
// What is foretold for the next drill holds what the log leaves open as well: a
// mixture of normals, with s integrated out of Student's t.
//
// # Mishaps
//
// They are counted and not fitted as lengths: their chance has a Beta prior, the
// file's figure worth [MishapWorth] drills. Where the chance hangs on a condition
// each of the two counts the drills in which the condition was so, or was not, at
// the start of the work.
//
// # Logs with ends only
//
// The drill is played with the lengths that bring every end to where the log has
// it (see [Replay]); starts follow from when crew and kit were there. What the
// log does not have (the lengths of tasks that nobody timed, their mishaps, what
// came late) is drawn together with the parameters: a length that leaves a timed
// task an unlikely one is seldom kept.
//
// # What it is not
//
// A log of three drills leaves most things open, and says so. PERT laws are not
// fitted. Paces are relative to each other only, and nobody is ranked.
package fit
