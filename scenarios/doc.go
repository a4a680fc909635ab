// Package scenarios reads scenario files: it checks a file, explains what is
// wrong with it, and turns it into a drill that an engine can play.
//
// Most callers want [Read], then [Scenario.Drill]; [Scenario.WhatIf],
// [Scenario.Without] and [Scenario.With] give the scenario with something
// changed. [Schema] gives editors what they need for completion, [Manual] is
// this text; warmby/scenarios/draft writes a first file. A [Scenario] is never
// changed once read and may be shared. The same bytes give the same drill. This
// package opens no file; the shipped scenarios are in warmby/scenarios/library.
// The rest of this text is the manual of the format.
//
// # What a scenario file is
//
// A scenario is one file that says where and when a team halts in the snow,
// what the weather does, who is there, what is carried, what there is to do,
// and in which orders it might be done. Played under one order it gives a
// drill; a drill played with one set of draws is a run; what a run gives is a
// timeline.
//
// The words of the format, and no others for the same thing:
//
//	scenario      one file: site, weather, people, kit, tasks, milestones, orders
//	drill         one scenario played under one order
//	order         who does which tasks in which sequence: one or more groups
//	group        some people with a sequence of tasks of their own
//	task          a piece of work, a wait or fixed job, a melt, or a warm-up
//	crew          the people on one task
//	load          a sled or pack whose items come off top first
//	spot          a place on the site
//	lookout       a standing duty
//	milestone     a moment people ask about: shelter up, heated, first hot drink
//	run, batch    one drill with one set of draws; many runs
//	timeline      who did what from when to when, and the milestones
//	what held it up  the tasks, waits and shortages that decided a milestone
//
// # The file
//
// The file is YAML 1.2 in UTF-8 with the ending .yaml, of at most 1 MiB. Its
// first key is "warmby: 1", the version of the format. Keys are written as in
// the key reference below, spaces included. Names of people, tools, spots,
// loads, stoves, shelters, tasks, lookouts, milestones, orders and groups are
// free text of one line and at most 200 bytes.
//
// A list of one may be written without brackets: "after: pitch the tent".
//
// A tent, a spot and a task may share a name; two things of one kind may not.
// These are refused, each with its line and what was expected: a bare number
// where a unit is needed (0 too), NaN and infinities, a leading zero as in 010,
// exponents as in 1e3, numbers of more than 24 digits, an unknown key, a key
// that stands twice, anchors, aliases, tags, merge keys, several documents,
// control characters, an empty file, a name that nothing defines. All mistakes
// of a file are reported at once, in the order in which they stand; the first
// 20 are shown. A path in a message counts the entries of lists from 1:
// "people[2].pace".
//
// Bounds: 100 people, 500 tasks of the file's own (one that each person does for
// himself counts as one a person), 64 different skills, 50
// loads of 200 items, 100 kinds of tool, 100 spots, 50 kinds of stove, shelters
// and lookouts, 100 milestones and orders, 50 groups to an order, 30 what-ifs,
// 500 weather rows, 20 weather cases, 50,000 values in all, nested 16 deep.
//
// # Quantities
//
// A quantity is a decimal number with a unit, such as "20 min", "-12 C", "28.8
// km/h" or "240 kg/m3". It is converted exactly: 28.8 km/h is 8 m/s to the last
// bit, and -4 F is -20 C. A length of time may have parts, from hours to
// seconds: "1h20min". A plain number without unit stands for degrees of
// latitude, longitude and bearing, pace, teamwork, spread, and for numbers of
// people and things. Yes and no are written true and false.
//
// A quantity of work or time that may vary is one of
//
//	20 min                                 always that
//	[15 min, 20 min, 40 min]               quick, usual, slow
//	{quick: 15 min, usual: 20 min, slow: 40 min, covers: 80 %}
//	{triangular: [15 min, 20 min, 40 min]}
//	{uniform: [15 min, 40 min]}
//	{exponential: 20 min}
//	{lognormal: {median: 20 min, spread: 1.3}}
//	{observed: [17 min, 19 min, 26 min]}
//
// Of three values the middle one is the most likely (the mode), and they do not
// fall: quick <= usual <= slow. In a list the outer two are the extremes of a
// beta-PERT law of shape 4. With covers, that share of cases lies between them
// instead, with equal shares beyond either end; quick is over 0 then, and so is
// every draw. An exponential is given by its mean, a lognormal by its median and
// its geometric standard deviation (1 or more). Observed values are drawn with
// equal chance. Laws that often give next to no length (an exponential, a wide
// lognormal: in over 2 of 100 runs less than a tenth of the usual) are remarked by
// warmby check. May vary: work, takes (of tasks and items), minutes, what a
// mishap adds, and when people and loads arrive. Lags, relief, from, handling
// and walks are fixed.
//
// Without a seed nothing is drawn and usual values hold: the middle one of
// three values; the median of lognormal, exponential and observed (of an even
// number, the mean of the middle two); the middle of uniform. Then a mishap
// happens only when the chance that holds is 100 %, as often as at most allows; the day's
// factor is 1; the weather case of the largest weight comes, of equals
// the first.
//
// A lag, a relief, or any other fixed time is at most seven days (a walk 24
// hours); what may vary is at most 1000 days.
//
// # Time and work
//
// Time counts whole milliseconds since the team arrived. What is drawn or
// computed is rounded to a millisecond, half away from zero, and is never below
// 0.
//
// Work counts person-milliseconds, in millionths. A crew of n does in each
// millisecond
//
//	floor(e P / (n s)) millionths,   e = round(10^6 n^x)
//
// where x is teamwork (0.9 unless the task or the scenario says otherwise), P
// the sum of the paces of the n people there, in thousandths, and s the product
// of the factors of "slowed" that hold, in thousandths. Factors multiply as
// exact decimals and s is rounded once, half away from zero. A crew of two at
// pace 1 and teamwork 0.9 does 1.866 times the work of one. (0.9 is a default of
// ours: it leaves 0.933, 0.896 and 0.812 of a person's work in crews of two,
// three and eight. Ringelmann's men at a rope, 1913, kept 0.937, 0.847 and
// 0.492. Time your own crews.) What is done in an interval is rate times length,
// exactly; a task ends at the first millisecond at which its work is done. n and
// P count those who are there, not those on the way.
//
//   - work is person-minutes at pace 1: "work: 24 min" keeps one person busy for 24
//     minutes. The drawn value is rounded to whole person-milliseconds.
//   - timed is work as measured: the drawn time, in whole milliseconds, times e of
//     the people timed, at pace 1 and not slowed. It is not rounded again.
//   - takes is clock time. Crew, pace and conditions do not change it.
//   - melt and warm take as long as the heat needs.
//
// A task has exactly one of the five. teamwork and joinable belong to work and
// timed only, slowed to these and to melt.
//
// Conditions are dark (the sun under civil twilight, and no lights), dark with
// lights (the same, with lights), "air below -25 C", "wind over 8 m/s" and
// "snow deeper than 60 cm". At the very value below and over and deeper do not
// hold. They change only when a weather row begins and at twilight. A condition
// about which the file knows nothing is refused: air and wind without weather,
// dark without latitude, longitude and arrival, snow without its depth.
//
// day is one factor for each run on the work of the whole run, work and timed
// alike: lognormal with median 1 and sigma ln(1 + day). It multiplies the length of
// a takes, too, whose task says "day: true": a wait for people, a meal, and not a
// timer or glue that sets. A person may have a day, too: one factor for each run,
// of the same law, by which the person's pace is divided in that run; what comes is
// rounded to thousandths, half up, and is at least 0.001 and at most 100. The
// factor is 1 with usual values. day multiplies neither what a mishap adds nor what
// unloading takes. warmby fit learns how days differ from work and timed alone.
//
// # Light, weather and the clock
//
// Light and clock times follow from latitude, longitude and arrival. Dark is
// the sun's centre under -6 degrees, by the formulas of NOAA (Meeus, low
// precision), to the nearest second. lights is none or headlamps; left out it is
// none.
//
// weather is a list of rows that each hold until the next; they rise from 0
// min. Or it is named cases, of which one is drawn for each run by weight;
// weights need not add up to 100 %:
//
//	weather:
//	  calm:  {weight: 70 %, rows: [{at: 0 min, air: -18 C, wind: 2 m/s}]}
//	  storm: {weight: 30 %, rows: [{at: 0 min, air: -14 C, wind: 15 m/s}]}
//
// wind is that of a forecast, at 10 m above the ground; at the body it is 0.65
// of that in the open (from memory), and a spot that is sheltered spares that
// share of it. Where a row gives no wind it is calm, where it gives no humidity
// 85 %. from is where the wind comes from, in degrees from north as bearing is: the
// camp sketch of "warmby cards" draws it, and nothing else depends on it.
//
// # Crews
//
// "crew: 2" or "crew: 1-3"; left out it is 1; 0 needs nobody and stands alone.
// work and timed need a crew. "skills: {stove: 1, lead: 1}" asks for that many
// different people, each in one role, so nobody counts twice; "{stove: all}"
// asks it of every member, joiners too. More roles than the largest crew are
// refused, and a crew is never smaller than its roles. A skill that nobody has
// is no mistake of the file: the drill can never finish, and says why.
//
// The size comes first: the largest crew from minimum to maximum that the
// people free can fill, roles included. Of those crews it is the one whose
// members have the fewest skills altogether; of equals the shortest walk, then
// the roster. That is: people are taken by number of skills, walk and roster,
// and whoever would make the roles impossible is skipped. takes, melt, warm and
// unloading call no more than their minimum.
//
// "who: [Leader, Aila]" names the only people who may be of the crew, joiners
// too. Where none of them is there the drill can never finish, and says why.
//
// "crew: all" is everybody of the group that has the task in its sequence; of
// several groups, that with the fewest. So many are called, no fewer and no more.
// Not counted are who is absent, who is hurt in that what-if, at whatever time, who
// stays with one who is, who is a casualty, and whom who leaves out. Those whom another group lends may
// be of the crew. Somebody who stands at a lookout that never ends keeps such a
// task waiting for ever.
//
// "each: true" is for what everybody does for himself, one by one: eat, drink,
// dry socks. In the place of the task NAME there is one task a person, in roster
// order, called "NAME: Leader", which only that person does, alone. There is
// none for who is absent, hurt in that what-if or a casualty, none for who stays
// with somebody hurt and does it there, and with who only for those named. each belongs to work and takes, and has no crew. What names
// NAME means all of them: after, milestones, finish, lookouts, and a sequence;
// in the sequence of a group it means those of the group's own people. "NAME:
// Leader" may be named as well; in a what-if in which that person is absent, hurt
// or with somebody hurt this stands for nothing.
//
// A person with "casualty: true" is in no crew and at no lookout.
//
// Free people join a task of work or timed with a crew range once its work has
// begun, up to the maximum, unless it says "joinable: false". A joiner counts
// on arrival. Only those join who would arrive before the work is done, judged
// by the rate as it is at that moment; those on the way count towards the
// maximum. Joiners are taken as crews are, from every group whose sequence has
// the task, group by group. One whom the end of the task overtakes walks on,
// is free on arrival and was not there. One who arrives while a mishap lasts is
// one of its people. Nobody joins for a mishap, and nobody leaves during one.
//
// # Spots and walking
//
// Walks are measured from the centre of camp. Everybody arrives there, or at the
// spot that begin names, for all or for one person. A task without a spot, and
// all unloading, is at the centre. People stay where their last task or lookout
// was. From a spot to another a person walks both their walks, by day and by
// night alike; on the same spot nobody walks. Work starts when the whole crew is
// there; those there first wait. "in" puts a spot into a shelter, for the cold
// account; bearing is for pictures. Two spots with a walk each are that far
// apart even side by side: a tent and its inside cost nothing to go between only
// at the centre of camp, where both have a walk of 0 min, or as one spot.
//
// # Tools, loads and stoves
//
// tools are carried by hand and there from the start. A task holds its tools
// from the call of the crew until it ends; "{shovel: each}" is one for each
// person, so the number of shovels limits the crew and its joiners.
//
// A load is unloaded top first, one item after the other, by its crew of one or
// more, which is picked anew for each item and takes no more than its minimum. Each unloading
// is a task named "unpack ITEM": clock time, at the centre of camp, after the
// load has arrived and the items above are off. "after", milestones and
// sequences may name it, and results show it. No two items share a name, nor an
// item and a load; a task of your own must not be called like an unloading.
// Over its limit a load is refused. needs names items that must be off; what an
// item brings is there with it.
//
// brings names a stove when such a stove is defined, and a tool otherwise;
// nothing is both. A tool that a task asks for is in tools or brought by an
// item.
//
// A stove is held by the melt or warm-up that burns it; from the call of a
// warm-up until it is put out. count is how many of the kind work: all that
// items bring when it is left out, or 1 when none does; 0 is none, and more than
// items bring are never there. On a stove that holds pots a pot gets "to pots"
// of its power, also when it warms nothing; a warm-up on it has the rest while
// the melt runs. The units of such a stove are numbered: a warm-up takes the
// lowest-numbered unit that warms nothing, a melt the lowest-numbered with no
// pot on it.
//
// A stove that a warm-up has lit burns on when the warm-up has ended: it keeps
// the shelter warm, and holds its unit. It goes out when a task that says "puts
// out: heater" ends, or the drill does. Such a task at a spot in a shelter puts
// out the stoves of the kinds that it names that keep that shelter warm; at any
// other spot, all of these kinds that keep a shelter warm. A warm-up that has
// not ended is not touched by it; one that ends at that very moment has ended. A
// stove that a melt holds at that moment, called before it, goes out when this melt
// has ended instead, unless a warm-up has taken it over by then. Once it is out the
// unit is free.
//
// A warm-up in a shelter that a stove of the same kind keeps warm takes over that
// very unit, whether or not others are free. Until work on it starts the shelter
// is kept as before.
//
// # After
//
// A task may start when all that it comes after have ended. With a lag it waits
// that much longer, and "{task: X, from: start, lag: 2 min}" counts from the
// start of work on X, which is when its whole crew is there. Lags are not
// negative. Nothing comes after one task twice: that is refused. A circle is read without
// complaint; the drill can never finish and says so.
//
// # Mishaps
//
// With its chance a mishap adds clock time after the work. People and tools
// stay. With "again: true" it is drawn once more after each; it then needs "at
// most", which counts all mishaps of the task.
//
// The chance may be another one under a condition, written as for slowed:
//
//	mishap: {chance: {usually: 5 %, when: dark, then: 15 %}, adds: 20 min}
//
// What counts is whether the condition holds at the start of work on the task, when
// its whole crew is there; a task in a shelter goes by the light and weather outdoors,
// too. What changes while it is under way, and who joins or is pulled away, changes
// no chance: a task starts once. Of a task that each does for himself every person's
// part goes by its own start. Both chances are held against the same number of the
// run, and what the mishap adds is the same: with a "then" over "usually" a task that
// meets its mishap in the light meets it in the dark as well.
//
// # Lookouts
//
// When a lookout begins each of its places takes a free person of who (everyone
// who has arrived, when left out, whatever their group), in roster order from the
// lookout's own pointer, ahead of all tasks. At every relief each place is
// relieved, one by one: vacant places first, then the one called longest ago.
// The next free one in roster order, cyclically after the last one called
// there, takes over. Who stood there stands until the relief has walked there,
// and is free there and then, for a task at once but for no lookout. Without
// relief the first stays.
//
// "if nobody is free" says what then. wait, the default: the first to come free,
// ahead of tasks. skip: given up at the end of that instant, until the next
// relief time. pull: the next of them in roster order who is there on a joinable
// task whose work goes on, if those left there still fill its minimum and its
// roles; the pulled one's "each" tools come back at once; when nobody can be
// spared, as wait. A place for which nobody could be pulled waits for somebody
// to come free: nobody is pulled for it later. A place that nobody could fill at
// the beginning is filled as a relief would be. A place whose relief is on the
// way or owed is owed no second one, and its relief times go on meanwhile. A
// relief who arrives at the very moment of the next relief has arrived, and the
// place is owed another. longest is reported when overstepped.
//
// A lookout begins at "from", a time, or when the last of the tasks that from
// names has ended; reliefs count from then. It ends at "until", a time, or when
// work starts on the first of the tasks that until names; left out, with the
// drill. When it ends, who stands there is free there and then, who is on the way
// there walks on and is free on arrival, and no place is filled any more. A time
// that ends it counts before any place is filled at that instant. A lookout that
// ends before it begins is not stood. Where a task of from never ends the lookout
// never begins; where no task of until ever starts it stands to the end; the
// report says so.
//
// Who stands at a lookout counts as free for the tasks of its until, in the group
// that may use him, and may be called to them, unless he is hurt. His place is then
// filled no more; a relief who is on the way to it walks on and is free on arrival.
//
// With "unless somebody works there: true" a lookout needs nobody while people
// are at work there: while a task with a crew is under way, mishaps included, at
// its spot or at another spot in the same shelter. From the start of such work
// who stands there is free. Who is on the way walks on and takes the place on
// arrival if it needs somebody then, and is free if not. Who stands there counts
// as free for tasks there, as for those of until, but the place is not lost:
// from such a call until that task ends the lookout needs nobody, and all who
// stand there are free. When the last such task ends, every place to which
// nobody is on the way is due at once, ahead of all tasks, those that are ready
// at that moment too. These lookouts have no pointer: a place takes the free one
// of who with the shortest walk, of equals the first of the roster, and pulls by
// the same rule. Relief counts for each place by itself, from when somebody took
// it over or, when nobody could, from when it was due; skip gives a place up
// until then, or until work there ends again. All else is as for other lookouts.
// So somebody stays with a lit stove, or with a casualty, without being called
// away from work beside it.
//
// # Milestones and the end
//
// A milestone is reached when all the tasks it names have ended. by is a time
// since arrival ("100 min"), a clock time ("15:00", its next occurrence at or
// after the arrival, in the arrival's own offset), or dark: the first moment at
// or after arrival at which the sun is under civil twilight, lights or not.
// Where it never grows dark within seven days there is no target. A milestone
// never reached has missed its by.
//
// finish is a milestone without being named: every task has ended. "finish:
// {by: 20:00}" gives it a target; it takes no tasks.
//
// A drill in which something can never start comes to a stop: fewer people, tools
// or stoves than are needed, nobody with the skill, a circle of after, the only
// one who may do it bound to a lookout. All that can goes on. What was reached is
// told, with its time, and the rest is never, with the cause: which task can
// never start, and what it waits for. So it is in a drill that is played once,
// where it ends when something last began, ended or changed hands, and in each
// run of many. check gives exit code 4 then; so do cards, batch, before it plays
// a drill that stops with usual values and in each of its first runs, and improve
// and split, where no order could start it. A name that nothing defines is a
// mistake of the file (exit code 3).
//
// A drill that has not finished seven days after arrival never finishes, and what
// it has not reached by then is never. A law with a long tail (exponential,
// lognormal of a large spread) may bring that about by luck alone.
//
// # Orders
//
// An order has a sequence for everybody, or groups, each with people and a
// sequence of its own. A sequence names tasks, and places unloadings: "unpack
// ITEM", or "unpack LOAD" for all items of a load, top first, in which case
// none of them may be named beside it in the same order.
//
//	orders:
//	  shelter first: {sequence: [tramp the floor, pitch the tent]}
//	  two groups:
//	    crews: {pitch the tent: 3-4}
//	    groups:
//	      tent:  {people: [Leader, Berend], sequence: [tramp the floor, pitch the tent]}
//	      water: {people: [Aila], sequence: [melt for tea, serve tea], then: tent}
//
// Unloading that an order does not name stands before all tasks in the sequence
// of every group, loads in file order; it never stops a scan in turn. What it
// names stands only there. Tasks that no sequence names follow in file order in
// the first group; those that only some may do (who, each) in the first group
// that has one of these people. warmby check remarks which those are. People
// whom no group names belong to the first; nobody belongs to two. A task may be
// named in several groups (the first that can start it does), but not twice in
// one. crews narrows the crew of a task within its own range, and never below
// its roles.
//
// rule, on the order or on a group, is overtake (the default: a task that may
// not start is passed over) or in turn (it stops the scan of that group). In
// turn is how to wait on purpose: to keep people together for what comes next
// rather than have them called away by what could start now. A task that needs
// nobody takes its turn like any other. Joining is the same under both.
//
// A group with nothing left to start (every task of its sequence has been
// called; unloading that the order does not name does not count) lends its
// people to the group in then, or with "then: all" to all others in turn.
// There they are chosen as its own are, and they still serve their own group.
// If that one has nothing left either, they are lent on by its then.
//
// Without orders, tasks are done in file order. Without --order, the first is
// played.
//
// # How a drill is played
//
// People are allocated at every instant at which anything happens: the work of a
// task of any kind, or a task, ends, a mishap between the two or not; somebody
// arrives; a load arrives; a lag runs out; a lookout begins, ends or is to be
// relieved; the weather or the light changes. Within an instant tasks end first,
// then walkers arrive, then tasks whose crew is whole start, then rates are set
// anew, then people are allocated; if that starts anything, the instant is gone
// through again until nothing more starts; only then are joiners sent.
//
// Allocation looks at the lookouts due first, then at each group in turn, its
// tasks in sequence. A task that may start (after, items, tools, stoves, crew)
// starts; one that may not is passed over, or stops the scan. What starts
// counts at once for those looked at after it. What needs no walk happens at
// once (a crew that is whole at its call begins, a relief takes over, a joiner
// is there) and counts for all that is looked at after it. A task of no length
// ends at the instant it starts and gives its people back at its spot.
//
// The start of a task is when its whole crew is there; the call is earlier by
// the walk. Its people are all who were there, in roster order.
//
// In results, tasks stand in the order of the file, unloading first, finish
// last.
//
// # Luck
//
// Every draw is one uniform number from a stream named by seed, run, task and
// purpose, turned by the inverse of the law. What is drawn for a task depends
// on no order, no other task, and no number of workers: two orders meet the
// same luck in the same run, and another law for a task keeps it. Every random
// result prints its seed.
//
// # Heat
//
// A melt needs m (c_ice (0 - T) + L + c_water T1) of heat, from snow at the
// site's snow temperature T; "start with" is water at 0 C that is there already
// and counts towards water once. From an ice hole there is water at 0 C and no
// ice to melt. "to: boil" is the boiling point at the site's elevation (standard
// atmosphere, Antoine constants for 344 to 373 K); a temperature over it is
// refused. Water divided by pot, rounded up, is the number of fillings: this is
// worked out exactly, so that 5 qt fill two pots of 2.5 qt. Each adds handling.
// Power times efficiency goes into the pot. Without pot, one filling holds all.
// c_ice is 2.108 and c_water 4.186 kJ/(kg K), L 333.55 kJ/kg; a litre of water
// is a kilogram. The pressure at h metres is 101325 (1 - 2.25577e-5 h)^5.25588
// Pa, and water boils where log10 P = 5.08354 - 1663.125 / (T - 45.622), P in
// bar, T in K.
//
// slowed divides the power that gets into the pot. A melt whose heat takes L ms
// at full power, rounded to a millisecond, has L x 10^6 parts to do. In each
// millisecond in which slowdowns of product s hold, in thousandths, floor(10^9 /
// s) of them are done, exactly as for work. Handling comes after, as clock time,
// and is not slowed.
//
// The air of a shelter is one heat balance, solved exactly between changes:
//
//	C dT/dt = P - (U A + rho c_p n V/3600) (T - T_air)
//
// with the skin A, u, the air changes n and the volume V of the shelter, C its
// contents plus its air, rho = 353/T of the outside air and c_p 1005 J/(kg K). A
// shelter is as warm as the air outside until its first warm-up starts; with "at
// start: 8 C" it has that temperature at t = 0 and cools, or warms, from there.
// A warm-up starts from the temperature that there is, gives all its power, and
// ends at the first millisecond after its start at which the shelter is as warm as
// asked: it takes a millisecond where it is that already. From then on, during a
// mishap too, the stove
// keeps that temperature with the power that this needs, between none and what
// it can give. Where that is not enough the balance goes on below, and comes
// back up when it can; where people and the air outside hold more it goes above.
// Once the stove is out the balance goes on without it. Each of the people of a
// warm-up gives 100 W, from the start of work on it until that on the next
// warm-up of the shelter starts, or the drill ends.
//
// The power of a stove in a shelter is power times efficiency where it has a
// flue. Without one all of the power stays inside, with the exhaust: efficiency
// then counts for pots only. While a melt is under way on a stove that holds
// pots the shelter has the share that "to pots" leaves.
//
// A stove burns fuel until it is out: at full power until a warm-up has its shelter
// as warm as asked and while a pot is on it, else with the power that keeping the
// shelter warm needs, divided by the share that gets into the shelter.
//
// A warm-up that starts while another stove burns in the same shelter stops the
// drill: what has ended by then, at that moment too, is told, and the rest is
// never. Of two that start at one moment the first in the file burns. One of the
// same kind that has warmed the shelter is taken over instead. makes changes a
// shelter from the end of its task on; of two the one that ends later holds, at one
// instant the later one in the file, also where it comes before the other and that
// takes no time. Weather rows, makes, stoves lit and put out, and the start and end
// of a melt on the same stove are changes; between them the balance is solved
// exactly.
//
// When a warm-up never gets there, that is an answer and no error: all that has
// then not ended is reported as never, finish too, and the report says how warm
// the heater can hold the shelter and what was asked. A task that could not
// start even so is named with its cause.
//
// site snow temperature is at most 0 C, and needed where snow is melted. Snow
// of 240 kg/m3 gives a pot of water out of some four pots.
//
// # Cold
//
// For each person with clothing the report keeps an account of heat. In every
// stretch of a drill over which nothing changes the body stores or loses S W/m2
// by the heat balance of ISO 11079 (required clothing insulation), at its
// minimal criterion, the less strict of its two. While S is negative the loss
// adds up, in Wh/m2; while it is positive it comes back, never below 0. It is
// held against the standard's 40 Wh/m2. This running sum is our extension of a
// standard for steady exposure; it knows neither wet clothing nor fingers, and
// nobody is safe for being under the limit.
//
//   - What people do: the effort of the task when working (left out: moderate for
//     work, timed, unloading; low for takes, melt and warm), moderate when walking,
//     the effort of the lookout when they stand there, standing at rest (70 W/m2)
//     without one. Who waits for the rest of a crew stands. Who is free does what
//     "free: {effort: low}" says, low when left out, outdoors, and rests inside. The
//     classes are resting, low, moderate, high and very high, 65, 100, 165, 230 and
//     290 W/m2 (ISO 8996, from memory).
//   - Going in: a shelter is warm for going in from the end of its first warm-up on,
//     or from the arrival when it has "at start". Who is free outdoors for longer than
//     the two walks and 2 min more walks there, is inside, and walks back so as to be
//     back when that stretch ends. If the shelter grows warm during the stretch, what
//     is left of it counts. The nearest spot in a warm shelter is where they go, by
//     the walk from where they are, of equals the first in the file; a warm shelter
//     in which no spot lies is entered at the centre of camp. No more than the shelter
//     sleeps are inside, those at work and at lookouts in it counted; who gets there
//     first, then the roster. Who finds no room goes to the next shelter that has, or waits
//     until there is; who has gone in goes out again when those in the timeline need the
//     place. sleeps 0 is no bound. Whose spot lies in a warm shelter
//     is inside without a walk. This is the account's own reading: the timeline does
//     not change by it, and "free: {go in: false}" turns it off.
//   - Clothing: march until the first task marked "layers on" has ended; where that
//     is one that each does, until the person's own has. From then on halt for
//     efforts up to low, when free or waiting, and march above low. On lookouts halt
//     always. "worn: march" or halt on a task decides for its people. Walking keeps on
//     what was worn before. Damp takes its share of the insulation until the person
//     has been inside at 10 C or more for 30 min without a break (an invented figure),
//     or a task of theirs with "dry clothes: true" has ended.
//   - Place: 0.65 of the wind at 10 m reaches the body in the open (from memory),
//     less the share that a sheltered spot keeps off. A spot "in" a shelter is
//     outdoors until work on its first warm-up starts, and inside from the arrival on
//     with "at start". Inside, the air is that of the shelter and still (the least
//     air movement of the standard), and what surrounds people is as warm as the air.
//     It counts in whole degrees, rounded half up, and as 10 C where it is warmer:
//     there the formulas end.
//   - Sweat: where the balance is over zero and nothing is left to win back, what is
//     over is sweat, at 0.675 Wh a gram and 1.8 m2 of skin. Inside, at efforts up to
//     low, people open what is too warm: the balance comes back as it does outdoors,
//     and there is no sweat.
//   - Without weather, and for who has no clothing, there is no account, and the
//     report says why. There is none for a casualty, and for who is hurt from then on:
//     insulate, shelter, watch. There is no value where the air outdoors is above 0 C,
//     clothing is under 0.3 clo, or air moves faster than the standard goes.
//
// The account is played with the metabolic rate as it is, 20 % lower and 20 %
// higher: classes of effort are no more exact than that. Over the limit is who
// passes it in all three, within it who does so in none, near it who does in
// some; far over who passes three times the limit with the rate as it is. What
// is counted over many runs is the account with the rate as it is.
//
// Beside it stand wind chill with its class (the index of 2001, Environment
// Canada's bands) and time to frostbite for bare skin, and as a second opinion
// the published work/warm-up schedule (Saskatchewan, as ACGIH's), one row colder
// for light work. For each lookout with relief the report proposes the longest
// relief that keeps everybody within the limit.
//
// "hands: bare" is a caution: the report names work that bare hands do for longer
// than a published rule gives them (minutes = degrees F + 5, NSMRL report 1067).
// Cold hands slow a task only where the file says so, with slowed: "{when: air
// below -15 C, to: 130 %}". Fingers lose their skill at a skin temperature of
// some 16 C and their touch at 6 C.
//
// # What if
//
// A what-if names changes of the scenario, and is played under every order. It
// is a part of the same tree, laid over the file: keys that it names replace,
// all else stays; lists (weather rows, packs, after) and quantities that may
// vary are replaced as a whole. A change of a task from one of work, timed,
// takes, melt, warm to another replaces the one that was there. It adds no new
// names, and it leaves title, orders and what if alone.
//
//	what if:
//	  two down: {people: {Berend: absent, Aila: {hurt: 20 min, helpers: 1}}}
//	  slow cook: {people: {Ciro: {pace: 0.7}}}
//	  one stove dead: {stoves: {burner: {count: 1}}}
//	  storm: {weather: [{at: 0 min, air: -14 C, wind: 15 m/s}]}
//
// "Berend: absent" takes somebody out of the team, of groups and of lookouts;
// a lookout of whom nobody is left is not stood. A group of whom nobody is
// left keeps its sequence, for people lent to it.
//
// "Aila: {hurt: 20 min, helpers: 1, spot: inside}" lets somebody be out from
// then on, with so many of the others staying there (1 when left out, 0 for
// none): those with the fewest skills, of equals the first of the roster.
// "helpers: [Orla]" names them. Both are lookouts without relief at the spot, the
// centre of camp when none is named: "hurt: Aila" and "with Aila". They pull
// people from joinable work when nobody is free. Who is on a task that cannot be
// left, or at a lookout, is out or helps as soon as that ends.
//
// Being hurt comes before every lookout and every task. At one instant whoever
// is hurt is out before anybody is called to a lookout or a task; who is relieved
// is out at that very moment; and nobody who is hurt is pulled to a lookout. "with
// Aila" stands after the file's lookouts and goes by their rules, and nobody
// whom the same what-if hurts, then or later, helps.
//
// "can wait: true" on a task lets compare play the scenario without it as well.
// What came after it then comes after what it came after itself, and lags add
// up; a milestone of which no task is left is gone. A lookout from it begins
// with what it came after; one until it stands to the end. A task that each does
// is left out as a whole.
//
// # More is not always sooner
//
// One more person, one more shovel or shorter tasks can make a drill longer.
// Whoever comes free takes up the first task of the sequence that may start; a
// sequence that was good for three can make four begin work that had better
// wait, and the long task then comes last. R. L. Graham described it ("Bounds for
// certain multiprocessing anomalies", Bell System Technical Journal 45 (1966)
// 1563-1581; citation and figures from memory, the figures worked out anew). His
// nine jobs, of one person each, done in file order:
//
//	people: [{name: A}, {name: B}, {name: C}, {name: D}]
//	tasks:
//	  one: {takes: 3 min}
//	  two: {takes: 2 min}
//	  three: {takes: 2 min}
//	  four: {takes: 2 min}
//	  five: {takes: 4 min, after: [four]}
//	  six: {takes: 4 min, after: [four]}
//	  seven: {takes: 4 min, after: [four]}
//	  eight: {takes: 4 min, after: [four]}
//	  nine: {takes: 9 min, after: [one]}
//
// Three people are done after 12 min: A does one and then nine, while B and C do
// the rest. Four are done after 15 min: four is over at 2 min already, five, six
// and seven are begun before nine may start, A takes eight, which stands before
// nine, and nine begins at 6 min. With nine before five in the sequence four
// people take 12 min too. So look for an order for the people that there are
// (warmby improve), and let groups keep apart what must not wait for other work;
// warmby split says where more are later.
//
// # Classes of kit and clothing
//
// "like:" takes a plain size class from a table, below, with where its numbers
// come from; own values beside it override it. Most are from memory and a
// default only: measure your own. Without clothing a person wears that of the
// class winter.
//
// # Safety
//
// This tool plans and trains. It is not medical or safety advice. Stoves in
// tents kill by carbon monoxide and fire: open vents, somebody awake, the
// maker's instructions. Liquid fuel on skin freezes it. Local rules, makers and
// qualified people come first.
//
// # A whole small scenario
//
//	warmby: 1
//	title: Juniper Hollow, first tent
//	site:
//	  latitude: 61.5
//	  longitude: 9.8
//	  arrival: 2027-02-06T15:10:00+01:00
//	  snow: {depth: 70 cm, density: 220 kg/m3, temperature: -8 C}
//	weather:
//	  - {at: 0 min, air: -15 C, wind: 3 m/s}
//	people:
//	  - {name: Leader, skills: [stove]}
//	  - {name: Aila}
//	loads:
//	  sled: {pack: [{item: tent bag, takes: 2 min}, {item: kitchen box, takes: 1 min, brings: {burner: 1}}]}
//	stoves:
//	  burner: {power: 2.5 kW, efficiency: 50 %, fuel: white gas}
//	tasks:
//	  tramp the floor: {work: [15 min, 24 min, 40 min], crew: 1-2, slowed: [{when: dark, to: 130 %}]}
//	  pitch the tent: {timed: {people: 2, minutes: [12 min, 18 min, 35 min]}, crew: 1-2, needs: tent bag, after: tramp the floor}
//	  light the burner: {takes: [2 min, 3 min, 8 min], skills: {stove: 1}, needs: kitchen box}
//	  melt for tea: {melt: {water: 1 L, to: boil, stove: burner}, after: light the burner}
//	milestones:
//	  shelter up: {when: pitch the tent, by: dark}
//	  hot drink: {when: melt for tea, by: 16:00}
//	orders:
//	  shelter first: {sequence: [tramp the floor, pitch the tent]}
//	  drink first: {sequence: [light the burner, melt for tea]}
//
// # Key reference
//
// Each key with the form of its value, its default and its meaning. "Needed" keys
// have no default.
//
// Scenario: one file: site, weather, people, kit, tasks, milestones, orders
//
//	warmby: 1. Needed.
//	    The version of the format, 1; the first key.
//	title: text. Needed.
//	    What the scenario is called, in a line.
//	site: keys of site. Default: no place, no date, no snow.
//	    Where and when the team halts.
//	spots: for each spot: keys of spot. Default: the centre of camp only.
//	    Places on the site.
//	weather: a list of rows, or named cases. Default: none: no air, no wind.
//	    Rows that each hold until the next, or named cases with weights.
//	people: list of: keys of person. Needed.
//	    The team, in roster order.
//	begin: name of a spot. Default: the centre of camp.
//	    Where everybody is on arrival who begins nowhere else.
//	free: keys of free. Default: low effort, and in where it is warm.
//	    What people do who have nothing to do, for the cold account.
//	tools: for each tool: whole number. Default: none.
//	    How many tools are carried by hand, there from the start.
//	loads: for each load: keys of load. Default: none.
//	    Sleds and packs.
//	stoves: for each stove: keys of stove. Default: none.
//	    Kinds of stove.
//	shelters: for each shelter: keys of shelter. Default: none.
//	    Tents and huts, for warming.
//	tasks: for each task: keys of task. Needed.
//	    What there is to do.
//	lookouts: for each lookout: keys of lookout. Default: none.
//	    Standing duties with relief.
//	milestones: for each milestone: keys of milestone. Default: finish only.
//	    Moments people ask about.
//	orders: for each order: keys of order. Default: file order.
//	    Drill orders; the first is played unless another is asked for.
//	what if: for each change: keys of change. Default: none.
//	    Changes of the scenario, each played under every order.
//	teamwork: number. Default: 0.9.
//	    Exponent x: a crew of n does n^x times the work of one.
//	day: a share. Default: 0 %.
//	    How much the work of a whole run varies from day to day.
//
// Site: where and when the team halts; t = 0 is the arrival
//
//	latitude: number. Default: unknown: no light, no dark.
//	    Degrees, north positive.
//	longitude: number. Default: unknown.
//	    Degrees, east positive.
//	elevation: a length. Default: 0 m.
//	    Above the sea; sets the boiling point (its formula ends at some 8650 m).
//	arrival: date and time with offset. Default: unknown: no clock times, no dark.
//	    As 2027-01-16 14:55 +02:00; light and clock times follow from it.
//	snow: keys of snow. Default: unknown.
//	    Its depth, density and temperature.
//	lights: none or headlamps. Default: none.
//	    Whether the team has lights: dark, or dark with lights.
//
// Snow: the snow on the site
//
//	depth: a length. Default: unknown.
//	    For the condition snow deeper than.
//	density: a density. Default: unknown.
//	    How many pots of snow make a pot of water; at most that of ice.
//	temperature: a temperature. Default: unknown.
//	    Needed where snow is melted.
//
// Spot: a place on the site
//
//	walk: a length of time. Default: 0 min.
//	    From the centre of camp, one way, by day and night.
//	bearing: number. Default: 0.
//	    Degrees from north, for pictures only.
//	sheltered: a share. Default: 0 %.
//	    The share of the wind that it is spared.
//	in: name of a shelter. Default: outdoors.
//	    The shelter that it lies in.
//
// Weather row: what it is like from a moment on
//
//	at: a length of time. Needed.
//	    Time since arrival; rows rise from 0 min.
//	air: a temperature. Needed.
//	    Air temperature.
//	wind: a speed. Default: 0 m/s.
//	    At 10 m above the ground, as forecast.
//	humidity: a share. Default: 85 %.
//	    Relative humidity.
//	from: number. Default: unknown.
//	    Where the wind comes from, degrees from north; for the camp sketch only.
//
// Weather case: one way in which the weather may go
//
//	weight: a share. Needed.
//	    How likely it is, against the weights of the others.
//	rows: list of: keys of weather row. Needed.
//	    Its rows.
//
// Person: one of the team
//
//	name: text. Needed.
//	    No two share one.
//	skills: list of: text. Default: none.
//	    What the person may be asked for.
//	pace: number. Default: 1.
//	    Work done in a minute, 1 for most; at most three decimals.
//	day: a share. Default: 0 %.
//	    How much the person's own pace varies from day to day.
//	clothing: keys of clothing. Default: like winter.
//	    For the cold account.
//	damp: a share. Default: 0 %.
//	    The share of the insulation lost until dry.
//	arrives: length of time that may be drawn. Default: 0 min.
//	    When the person gets to where he or she begins; may be drawn.
//	begin: name of a spot. Default: as the scenario says.
//	    Where the person is on arrival.
//	casualty: true or false. Default: false.
//	    In no crew and at no lookout, and without an account of cold.
//
// Clothing: basic insulation of what is worn
//
//	like: class of clothing. Default: winter.
//	    A class of clothing.
//	march: an insulation of clothing. Default: as the class.
//	    Until the task marked layers on has ended.
//	halt: an insulation of clothing. Default: as the class.
//	    From then on, and on lookouts.
//
// Free: what people do who have nothing to do; the timeline does not change by it
//
//	effort: resting, low, moderate, high or very high. Default: low.
//	    Outdoors; in a shelter they rest.
//	go in: true or false. Default: true.
//	    Whether they go into a warm shelter.
//
// Load: a sled or pack whose items come off top first
//
//	arrives: length of time that may be drawn. Default: 0 min.
//	    When it gets to the centre of camp; may be drawn.
//	limit: a weight. Default: none.
//	    What it may weigh; over it is a mistake.
//	crew: number of people or range. Default: 1.
//	    The crew of each unloading; no more than its minimum is called.
//	pack: list of: keys of item. Needed.
//	    Items, top first.
//
// Item: a thing on a load; its unloading is the task "unpack ITEM"
//
//	item: text. Needed.
//	    No two items share a name, nor an item and a load.
//	weight: a weight. Default: 0 kg.
//	    Counts against the limit.
//	takes: length of time that may be drawn. Default: 0 min.
//	    Clock time to take it off; may be drawn.
//	brings: for each tool or stove: whole number. Default: nothing.
//	    The tools or stoves that are there once it is off.
//
// Stove: a kind of stove
//
//	like: class of stove. Default: none.
//	    A class of stove; own values override it.
//	count: whole number. Default: all that items bring, or 1.
//	    How many of them work; 0 is none.
//	power: a power. Default: needed without like.
//	    Heat of the fuel burnt.
//	efficiency: a share. Default: needed without like.
//	    The share that gets into the pot or the shelter.
//	fuel: white gas, kerosene, petrol, alcohol, propane, butane, isobutane or wood. Default: unknown: no fuel reported.
//	    What it burns.
//	holds pots: true or false. Default: false.
//	    Whether a pot may stand on it while it warms a shelter.
//	to pots: a share. Default: needed with holds pots.
//	    The share of its power that a pot on it gets, also while it warms
//	    nothing.
//	flue: true or false. Default: false.
//	    Whether its exhaust goes outdoors when it warms a shelter.
//
// Shelter: a tent or hut as a body of air with a skin
//
//	like: class of shelter. Default: none.
//	    A class of shelter; own values override it.
//	volume: a volume of air. Default: needed without like.
//	    Of the air inside.
//	skin: an area. Default: needed without like.
//	    Area through which heat is lost, floor included.
//	u: a heat loss. Default: needed without like.
//	    Heat lost through the skin.
//	air changes: a number of air changes. Default: 1 /h.
//	    How often the air is renewed in an hour.
//	contents: a heat capacity. Default: 0 kJ/K.
//	    Heat capacity of what is warmed besides the air.
//	sleeps: whole number. Default: 0: unknown.
//	    How many people.
//	at start: a temperature. Default: the air outside.
//	    How warm it is inside on arrival.
//
// Task: a piece of work (work, timed), a wait or fixed job (takes), a melt or a warm-up: exactly one of the five
//
//	what: text. Default: its name.
//	    A sentence for people.
//	work: length of time that may be drawn. Default: one of the five.
//	    Person-minutes at pace 1; may be drawn.
//	timed: keys of timed. Default: one of the five.
//	    Work as it was timed with some people.
//	takes: length of time that may be drawn. Default: one of the five.
//	    Clock time: crew, pace and slowdowns do not change it; may be drawn.
//	day: true or false. Default: false.
//	    Whether the day's factor counts for it too; takes only.
//	melt: keys of melt. Default: one of the five.
//	    Water from snow or an ice hole.
//	warm: keys of warm. Default: one of the five.
//	    A shelter brought to a temperature.
//	crew: number of people, range or all. Default: 1.
//	    How many people; 0 needs nobody, all is everybody of the group.
//	who: list of: name of a person. Default: anybody.
//	    The only people who may be of its crew.
//	each: true or false. Default: false.
//	    One task a person, "NAME: Person", which only that person does; work and
//	    takes only, without crew.
//	skills: for each skill: whole number or all. Default: none.
//	    So many different people, each in one role; all asks it of everyone.
//	tools: for each tool: whole number or each. Default: none.
//	    Held from the call until the task ends; each is one for each person.
//	needs: list of: name of an item. Default: nothing.
//	    Items that must be off their load.
//	spot: name of a spot. Default: the centre of camp.
//	    Where it is done.
//	after: list of: a task, or {task: name, from: start or end, lag: time}. Default: nothing.
//	    Tasks that must have ended, or begun, before it starts.
//	joinable: true or false. Default: true for work and timed with a crew range.
//	    Whether free people may join once work has begun.
//	teamwork: number. Default: that of the scenario.
//	    Exponent x for this task; work and timed only.
//	slowed: list of: keys of slowdown. Default: never.
//	    Factors of all conditions that hold multiply; work, timed and melt only.
//	mishap: keys of mishap. Default: none.
//	    Something that may make it last longer.
//	makes: for each shelter: keys of change to a shelter. Default: nothing.
//	    What is different about shelters from its end on.
//	puts out: list of: name of a stove. Default: nothing.
//	    Kinds of stove that warm shelters and go out when it ends.
//	can wait: true or false. Default: false.
//	    Compare also plays without it.
//	layers on: true or false. Default: false.
//	    From its end people put on what they wear at the halt; with each, the
//	    person who did it.
//	worn: march or halt. Default: by effort, once layers are on.
//	    What its people wear, for the cold account.
//	dry clothes: true or false. Default: false.
//	    From its end its people are damp no more.
//	felling: true or false. Default: false.
//	    Trees are felled: for a caution.
//	effort: resting, low, moderate, high or very high. Default: moderate for work and timed, else low.
//	    For the cold account.
//	hands: bare, thin or mittens. Default: mittens.
//	    What is on the hands, for the cold account.
//
// Timed: work as it was timed with some people
//
//	people: whole number. Needed.
//	    How many people were timed, pace 1, nothing slowed.
//	minutes: length of time that may be drawn. Needed.
//	    How long they took, with a unit; may be drawn.
//
// Melt: water made hot, from snow or an ice hole
//
//	water: a volume of water. Needed.
//	    How much is wanted in all.
//	to: a temperature or boil. Needed.
//	    The boiling point there, or a temperature.
//	stove: name of a stove. Needed.
//	    The kind of stove that it burns.
//	pot: a volume of water. Default: as large as the water.
//	    How much a filling holds; water / pot fillings, rounded up.
//	start with: a volume of water. Default: 0 L.
//	    Water at 0 C that is there already and counts once.
//	from: snow or ice hole. Default: snow.
//	    An ice hole gives water at 0 C.
//	handling: a length of time. Default: 0 min.
//	    Clock time for each filling.
//
// Warm: a shelter brought to a temperature
//
//	shelter: name of a shelter. Needed.
//	    Which.
//	stove: name of a stove. Needed.
//	    The kind of stove that it burns.
//	to: a temperature. Needed.
//	    The temperature asked.
//	people: whole number. Default: 0.
//	    Each gives 100 W from the start.
//
// After: what a task comes after
//
//	task: name of a task. Needed.
//	    The task before.
//	from: start or end. Default: end.
//	    Start counts from the start of work on it.
//	lag: a length of time. Default: 0 min.
//	    How long after; not negative.
//
// Slowdown: a condition that makes work or a melt take longer
//
//	when: dark, dark with lights, air below Q, wind over Q or snow deeper than Q. Needed.
//	    The condition; at the very value below and over do not hold.
//	to: a share. Needed.
//	    The time that it makes of the usual time.
//
// Mishap: something that makes a task last longer
//
//	chance: a share, or {usually: share, when: condition, then: share}. Needed.
//	    How likely it is; another chance with a condition, if it is so at the
//	    start of the work.
//	adds: length of time that may be drawn. Needed.
//	    Clock time added after the work; may be drawn.
//	again: true or false. Default: false.
//	    Whether it may happen again after each time.
//	at most: whole number. Default: 1; needed with again.
//	    How often in all.
//
// Chance: how likely a mishap is, when that hangs on a condition at the start of work on the task
//
//	usually: a share. Needed.
//	    The chance without the condition.
//	when: dark, dark with lights, air below Q, wind over Q or snow deeper than Q. Needed.
//	    The condition, as in slowed.
//	then: a share. Needed.
//	    The chance with it.
//
// Change to a shelter: values that a task changes
//
//	volume: a volume of air. Default: as before.
//	    Of the air inside.
//	skin: an area. Default: as before.
//	    Area through which heat is lost.
//	u: a heat loss. Default: as before.
//	    Heat lost through the skin.
//	air changes: a number of air changes. Default: as before.
//	    In an hour.
//	contents: a heat capacity. Default: as before.
//	    Heat capacity besides the air.
//
// Lookout: a standing duty with relief
//
//	people: whole number. Default: 1.
//	    How many places it has.
//	from: a length of time, or list of: name of a task. Default: 0 min.
//	    When it begins: a time, or tasks that must have ended.
//	until: a length of time, or list of: name of a task. Default: the end of the drill.
//	    When it ends: a time, or tasks of which the first that starts ends it.
//	unless somebody works there: true or false. Default: false.
//	    Whether it needs nobody while people are at work at its spot or in its
//	    shelter.
//	relief: a length of time. Default: none: the first stays.
//	    Time from one relief to the next.
//	spot: name of a spot. Default: the centre of camp.
//	    Where it stands.
//	who: list of: name of a person. Default: everyone who has arrived.
//	    Who may be called.
//	if nobody is free: wait, skip or pull. Default: wait.
//	    Wait for the first to come free, skip until the next relief, or pull
//	    somebody from a joinable task.
//	longest: a length of time. Default: no bound.
//	    Reported when somebody stands longer.
//	effort: resting, low, moderate, high or very high. Default: standing at rest.
//	    For the cold account.
//
// Milestone: a moment people ask about: when all its tasks have ended
//
//	when: list of: name of a task. Default: needed, but for finish.
//	    Tasks; unloading is named "unpack ITEM".
//	by: time since arrival, clock time or dark. Default: no target.
//	    When it is wanted.
//
// Order: who does which tasks in which sequence: a sequence for all, or groups
//
//	sequence: list of: name of a task. Default: file order.
//	    Tasks, looked at in this sequence; also "unpack ITEM" and "unpack LOAD".
//	groups: for each group: keys of group. Default: one, of everyone.
//	    Instead of sequence.
//	rule: overtake or in turn. Default: overtake.
//	    Whether a task that may not start is passed over, or stops the scan.
//	crews: for each task: number of people or range. Default: as in the tasks.
//	    Narrows the crews of tasks.
//
// Group: some people with a sequence of their own
//
//	people: list of: name of a person. Default: those whom no group names, in the first.
//	    Nobody belongs to two.
//	sequence: list of: name of a task. Default: nothing.
//	    As in an order.
//	then: name of a group, or all. Default: nowhere.
//	    The group that gets the people when nothing is left to start.
//	rule: overtake or in turn. Default: that of the order.
//	    As in an order.
//
// Change: what is different; what is not named stays
//
//	site: changes. Default: as is.
//	    Values of the site.
//	spots: changes. Default: as is.
//	    Values of spots.
//	weather: changes. Default: as is.
//	    Other rows, or values of weather cases.
//	people: changes. Default: as is.
//	    NAME: absent, NAME: {hurt: time, helpers: number or names, spot: name},
//	    or values of a person.
//	tools: changes. Default: as is.
//	    Other numbers of tools.
//	loads: changes. Default: as is.
//	    Values of loads; a pack is replaced as a whole.
//	stoves: changes. Default: as is.
//	    Values of stoves.
//	shelters: changes. Default: as is.
//	    Values of shelters.
//	tasks: changes. Default: as is.
//	    Values of tasks.
//	lookouts: changes. Default: as is.
//	    Values of lookouts.
//	milestones: changes. Default: as is.
//	    Values of milestones.
//	teamwork: changes. Default: as is.
//	    Another exponent.
//	day: changes. Default: as is.
//	    Another variation.
//
// In a change of people, beside the values of a person:
//
//	hurt: a length of time. Default: not hurt.
//	    From then on the person is out.
//	helpers: whole number, or list of: name of a person. Default: 1.
//	    How many of the others stay with a person who is hurt, those with the
//	    fewest skills; or who.
//	spot: name of a spot. Default: the centre of camp.
//	    Where a person who is hurt lies, with the helpers.
//
// Units. A space before the unit may be left out; °C, °F and the raised 2 and 3
// of W/m2K, kg/m3, m2 and m3 are read as well.
//
//	length of time             s, min, h
//	temperature                C, F, K
//	speed                      m/s, km/h, mph, kt
//	length                     m, mm, cm, in, ft, yd
//	weight                     kg, g, lb, oz
//	volume of water            L, mL, qt, gal
//	power                      W, kW, Btu/h
//	density                    kg/m3
//	volume of air              m3, ft3
//	area                       m2, ft2
//	heat loss                  W/m2K
//	heat capacity              kJ/K
//	number of air changes      /h
//	insulation of clothing     clo
//	share                      %
//
// Classes of shelter, with volume, skin, u, air changes, contents and sleeps:
//
//	two-person single-wall tent     2.5 m3, 10 m2, 5.9 W/m2K, 2 /h, 20 kJ/K, 2
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	two-person double-wall tent     2.5 m3, 10 m2, 2.9 W/m2K, 2 /h, 20 kJ/K, 2
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	four-person single-wall tent      8 m3, 20 m2, 5.9 W/m2K, 1.5 /h, 40 kJ/K, 4
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	four-person double-wall tent      8 m3, 20 m2, 2.9 W/m2K, 1.5 /h, 40 kJ/K, 4
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	six-person single-wall tent      15 m3, 29 m2, 5.9 W/m2K, 1.5 /h, 60 kJ/K, 6
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	six-person double-wall tent      15 m3, 29 m2, 2.9 W/m2K, 1.5 /h, 60 kJ/K, 6
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	ten-person single-wall tent      25 m3, 35 m2, 5.9 W/m2K, 1.5 /h, 100 kJ/K, 10
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	ten-person double-wall tent      25 m3, 35 m2, 2.9 W/m2K, 1.5 /h, 100 kJ/K, 10
//	      (heat loss derived from ISO 6946 film resistances; sizes, contents and
//	      air changes from memory, defaults only)
//	wall tent                        30 m3, 48 m2, 5 W/m2K, 2 /h, 120 kJ/K, 8
//	      (one canvas skin, from memory, a default only)
//	casualty shelter                  2 m3,  9 m2, 5.9 W/m2K, 3 /h, 20 kJ/K, 4
//	      (a bag of thin cloth over a few people, from memory, a default only)
//	snow shelter                      6 m3, 18 m2, 1.5 W/m2K, 1 /h, 60 kJ/K, 4
//	      (walls of 30 cm of packed snow at some 0.5 W/mK, derived from a
//	      conductivity from memory, a default only)
//
// Classes of stove, with power, efficiency, fuel, and to pots where one holds pots, and flue where it has one:
//
//	liquid-fuel burner             2.5 kW, 50 %, white gas
//	      (2 to 3 kW and 40 to 60 % from memory, a default only)
//	camp stove burner              3.37 kW, 41 %, white gas
//	      (11,500 Btu/h as a maker publishes; efficiency derived from a litre
//	      boiling in 4 min)
//	alcohol burner                 0.85 kW, 50 %, alcohol
//	      (424 W into the pot in a published hobby test; efficiency from memory)
//	tent heater                    7.3 kW, 65 %, white gas, to pots 30 %, flue
//	      (some 25,000 Btu/h, 65 % and 30 % to pots from memory, defaults only)
//	wood stove                     6 kW, 55 %, wood, to pots 25 %, flue
//	      (from memory, a default only)
//
// Classes of clothing, with march and halt:
//
//	light                          1.2 clo, 2 clo
//	      (walking clothes and a warm jacket, from memory, a default only)
//	winter                         1.6 clo, 3.5 clo
//	      (winter layers and a thick jacket and trousers for the halt, from
//	      memory, a default only)
//	expedition                     2 clo, 4.5 clo
//	      (polar clothing with a down suit for the halt, from memory, a default
//	      only)
//
// Fuels, with the heat that a litre or a kilogram gives:
//
//	white gas                      30.8 MJ/L
//	      (naphtha: 44.0 MJ/kg from memory, 0.70 kg/L as published)
//	kerosene                       34.5 MJ/L
//	      (43.1 MJ/kg from memory, 0.79 to 0.807 kg/L as published)
//	petrol                         32.2 MJ/L
//	      (43.4 MJ/kg from memory, 0.741 kg/L as published)
//	alcohol                        21.2 MJ/L
//	      (ethanol: 26.8 MJ/kg and 0.79 kg/L from memory)
//	propane                        46.4 MJ/kg
//	      (46.4 MJ/kg from memory)
//	butane                         45.7 MJ/kg
//	      (45.7 MJ/kg from memory)
//	isobutane                      45.6 MJ/kg
//	      (45.6 MJ/kg from memory)
//	wood                           16 MJ/kg
//	      (firewood, air dry: 16 MJ/kg as published, range 14 to 20)
package scenarios
