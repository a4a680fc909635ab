// Package fast plays drills by the million.
//
// [Compile] turns a drill into arrays and bit sets once; a [Worker] of the
// program then plays run after run without allocating. It gives the same
// times as warmby/sim/reference, to the millisecond, and, when asked, the
// same timeline.
//
// What makes it fast: tasks that may start as bits in the sequence of their
// group, so that no list is scanned; pending events in one small sorted
// array, with one slot for each task under way that is changed in place, and one
// for a whole crew that walks;
// people as bits by how many skills they have, so that the crew to call is a
// few operations; rates from a table; weather, light and lookouts as single
// moments beside the queue; only those tasks tried for which something has come
// free or ready since they were last tried.
//
// Three ways of playing are chosen from when a drill is compiled: people as
// bits of a word, or of several where there are more than 64 (crowd.go); and one
// loop (plain.go) for drills in which nobody walks, joins or is pulled away and no
// stove burns. All give the same times.
//
// A Program may be shared; a Worker belongs to one goroutine.
//
// # Speed: what was wanted, measured and tried
//
// go test -run '^$' -bench 'R1|Shipped' shows runs, events and allocations, and
// beside model R1 on both engines the time of a program that plays nothing but R1
// (r1hand_test.go): machines differ, the ratio less. What is wanted was set on a
// machine where such a program took 0.95 us; the figures are of two cores on which
// it took 1.25 us at best (November 2026), so that what is wanted is 1.32 times as
// long there. Measured is the least of many short stretches; averages are a tenth
// to a third more, as neighbours on the machine please.
//
//	                                       wanted   1.32 x   measured
//	model R1, a run with its draws         1.67 us  2.2 us   1.96 us, 1.56 times the program by hand
//	the same on the reference engine       100 times that    1.5 ms, some 740 times
//	kestrel-fell, each event               60 ns    79 ns    70 ns
//	harl-plateau, its morning              60 ns    79 ns    75 and 67 ns
//	ravengill                              60 ns    79 ns    51 ns
//	lake-ossamer                           60 ns    79 ns    79 ns
//	with the account of cold, same order   100 ns   132 ns   126, 123 and 120, 102, 138 ns
//	two workers against one                1.9               1.8 to 1.9; 1.91 to 1.95 elsewhere
//	a million runs of the demo as CSV      200 MB            47 MB, 5.4 s
//	three orders, 10,000 runs each         1 s      1.3 s    0.48 s
//
// None of them allocates while it plays.
//
// # Work repeated around a run
//
// Measured on two shared cores at the end of November 2026, all by processor time
// (user and system), the least of three or more: before is the program as it was
// when this work began. The program by hand took 1.40 us a run. An event is told in
// thousandths of such a run, by BenchmarkShipped; the shipped scenarios have more in
// them than they had for the table above.
//
//	                                                      wanted     before       now
//	model R1, general loop (BenchmarkR1), by hand 1       2.2        2.93         2.35 to 2.45; plain loop 1.6
//	an event of kestrel-fell, lake-ossamer                45 each    92, 131      78, 104
//	an event of harl-plateau, ravengill                   45 each    82, 97       75, 75
//	a run of batch --cold, in runs without it, of
//	kestrel-fell, lake-ossamer, ravengill, harl-plateau   1.6        2.9 3.0 2.6 2.9   1.9 2.05 1.8 1.9
//	such a run, in microseconds (BenchmarkShippedWithCold)           32 107 34 27      27 84 27 23
//	two workers, in runs of one by processor time         1.95       not kept     1.9 to 2.1
//	two workers, batch by the clock, files written        1.95       not kept     1.87 and 1.80
//	split lake-ossamer                                    1.5 s      20.3 s       5.2 to 6.2 s
//	split ravengill, kestrel-fell, harl-plateau                      9.6 6.8 6.5 s     6.9 6.2 4.0 s
//	a point of a sweep before any run (BenchmarkPoint)    3 ms       17 ms        2.0 ms
//	400 points of lake-ossamer, one run each, all told                9.1 s        2.3 s
//	the same, 280 of them impossible                                 8.4 s        1.1 s
//	65 people against 64 (BenchmarkCrowd)                 1.2        12 and 5     1.35 and 1.30
//	another order for a trial (BenchmarkReorder), in microseconds,
//	of kestrel-fell and lake-ossamer                                  8.2, 18.2    3.5, 7.3
//	compare, exponent from 120 to 500 tasks               1.2        2.3          1.1 to 1.3
//	(BenchmarkCompareOfALargeFile, 500 tasks)                        34.8 s       2.3 s
//	rehearse --runs 0, kestrel-fell and lake-ossamer      30 ms      40 and 52    20 and 29 ms
//
// What won: what reading a file found is kept with the scenario, for what-ifs and
// points made of it (a sweep 3.3 times as fast); a sim.Standstill says why a drill
// stops, without the reference engine; a run is played once for its milestones and
// its account of cold; factors that slow multiply in a word; a picture is drawn only
// where it is shown (half of rehearse); split looks for orders without judging and
// explaining each (half), races what is found, and knows once which tasks share tools
// (a tenth); what compare plays besides no longer grows with the tasks (total effects by
// groups that are halved, and where they are told; the tasks most often critical; runs
// of tasks left out shared among them). split plays 49,000 to 135,000 drills in search.
// It took 5.0 s and less before it kept the evening well, with the account of cold in
// its races and searches, and before splits into groups could all be played. On files
// made of 60, 120 and 240 tasks its time grows with the power 1.1 to 1.5 of their number.
//
// Of the engine itself the least is told of some ten stretches each, the program
// before and after in turns, while others kept the machine busy. Surer are the
// instructions of a run, counted by valgrind; the program by hand takes 12,450.
//
//	                            before     now        with the account of cold, before and now
//	model R1, general loop       53,600     40,000
//	kestrel-fell                192,000    149,500      372,000    273,000
//	lake-ossamer                496,000    372,000    1,038,000    766,000
//	harl-plateau                157,000    142,000      315,000    251,000
//	ravengill                   265,000    178,500      415,000    281,000
//
// So the general loop is still short of the mark, and the plain one stays. Of the
// instructions of R1 some 12,000 are 28 starts (the look at what is ready, the call,
// the first rate, the event of the end), 10,000 going from moment to moment and from
// group to group, 7,000 eighteen reliefs, 6,000 ends with what they make ready, 3,000
// draws: none stands out. The shipped scenarios, besides, meet 11 to 17 branches
// an event that are not foreseen where R1 by hand meets 4 (as valgrind takes a
// processor to be): a sixth fewer instructions save them a tenth of the time. The
// account of cold does not cost less in runs without it because these have become
// cheaper. Of the 124,000 instructions that it adds on kestrel-fell nearly half are the
// parts of people's time (240 for each of 235), a third is what a timeline records, a
// fifth the air of shelters. Nothing of it is worked out in vain: nearly each whole degree of a
// shelter at which the air changes is met by somebody, and of five parts of people's time
// four change what they have lost.
//
// # What won and what did not
//
// What won, in the order of tries: looking for work only when something has come
// free or ready (a fifth); people, ready tasks and tools as bits, so that a crew, a
// need or a relief is one operation (a fifth); arrays of two workers on lines of
// their own (1.75 to 1.93 times one); draws without branches that nobody foresees
// and without an interface (640 to 370 ns for R1); a run that begins by copying,
// and rates in one row (a fifth); plain drills in one loop (4.4 to 2.8 us for R1);
// fewer calls at starts, ends and arrivals (a tenth); looking for joiners only
// where there is room (a twentieth on crowded sites); one event for a crew that
// walks, and nothing copied at the beginning that a call sets anyway (a twentieth
// each); telling warm-ups only of what can have changed (a twentieth); filling in
// what a timeline records in place (a twentieth of the account of cold); a bit for
// each task that is worth a try, so that what failed is not tried again before
// something has come free for it (a quarter on ravengill); knowing when each lookout
// is next due and who stands there as a word (a fifth on lake-ossamer); a
// lookout at which nobody walks in a function of its own, and fewer calls from "may
// start" to "begun" (a fifth of R1 together); shifts by what cannot be too far (a
// fiftieth); what a look at a task needs laid out in the sequence in which it is looked
// for, and one function from there to the call of the crew (a fourteenth of kestrel-fell
// and ravengill, a twentieth of R1, nothing where groups go in turn); memory that a trial
// uses again for another order (half of it); for the account of cold, what a whole stretch
// has looked at once (a thirtieth), and a record that knows what it is told of (as much).
//
// What did not: smaller and reordered structures, down to half the bytes of a
// task; no bounds checks, a profile-guided build, 64-bit indices, newer
// instructions (a twentieth each at most); one function for all that a moment
// does, masks worked out before the call that uses them (nothing); looking only at
// groups for which something has come free (nothing to be measured, but it reads
// well); asking whether a group has news before it is gone through, or marking all
// groups whenever anybody comes free (a twentieth worse where groups go in turn);
// telling of those who come free word by word instead of person by person (a
// fiftieth worse with more than a word); a function between the group and its words, or
// the words of a group as a part of a slice (a twentieth worse: to cut a slice takes
// thirty instructions); lookouts of those who are hurt apart from the others (nothing);
// the maximum of two floats for a comparison (worse: it minds zeros and what is no number).
//
// An event of a shipped scenario takes 1,000 to 1,300 instructions; playing the same run
// over and over takes a third less time, and so much is branches that no processor
// foresees. The one loop of plain.go shows what is left to win: each call of a
// function in Go puts all it holds in registers into memory, and takes it back.
package fast
