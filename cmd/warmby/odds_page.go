package main

const oddsPage = `ODDS, INTERVALS AND COMPARISONS

How the figures of compare, batch, merge, improve, split and halt are made, and
what they do not say. "warmby help results" tells where they stand in files.

RUNS

A run is the drill with one set of draws: lengths, mishaps, arrivals, the case
of the weather. --seed N and the number of the run settle them, so that run 17
of seed 1 can be played again ("warmby rehearse --seed 1 --run 17"). Runs are
numbered from 0; points of a sweep, and shards (--shard 1/4), from 1. Run 17
meets the same luck under every order, in every what-if, at every point of a
sweep and at every arrival of halt. With usual values no length is drawn and no
mishap happens: one play, no odds, no interval. It flatters.

NEVER

What a run does not reach within seven days of arrival counts as never, that is
as infinitely late; so does what waits for a task that can never start in that
run, and the report says why. An exponential or another law with a long tail can
bring a run there though nothing is wrong with the drill. Where a run never gets
there no mean is told, for it would be infinite; quantiles and shares take never
as it is, and the mean of two orders' difference asks that both get there in all
runs.

ONE ORDER

Intervals are two-sided and hold with 95 %. They tell how far luck may have
moved a figure, not how true the lengths in the file are.

  mean       of all runs; Student's t
  quantile   "in 9 of 10 evenings by" is the moment of rank ceil(0.9 n) of n
             runs, counted from the soonest; its interval goes from one order
             statistic to another and assumes no shape (David and Nagaraja,
             Order Statistics, 3rd ed., 7.1)
  share      of runs in time, or sooner: Wilson's score interval (J. Am. Stat.
             Assoc. 22 (1927) 209-212), or, with fewer than 10 runs on one
             side, the exact one of Clopper and Pearson (Biometrika 26 (1934)
             404-413), which compare tells as a count: "298 of 300"
  curve      of odds in a picture: its band holds all of the curve (Dvoretzky,
             Kiefer and Wolfowitz, with the constant of Massart, Ann. Probab. 18
             (1990) 1269-1283)
  rank       correlation of a task's length with a milestone: Fisher's
             transformation with the error of Bonett and Wright (Psychometrika
             65 (2000) 23-28)

With fewer than 100 runs there is a warning and nothing is called ahead. There is
one too where a mishap, or a case of the weather, is expected in fewer than 40 of
the runs: one that comes in 1 evening of 100 may be missing from 100 runs
altogether, and then means, differences and their intervals know nothing of it.
Then only what such mishaps cannot turn round is called ahead: a difference whose
interval lies beyond twice their chance times the longest that they add (999 in
1000 add less); beside a rare case of the weather nothing is. Of a chance that hangs
on the weather or light both are asked, but for one that can never hold; how often
the condition is met is not. The warning says how many runs would do. Nor is anything called ahead where the differences are so skewed
that the runs are too few for Student's t: fewer than 25 times the square of their
skewness (Cochran, Sampling Techniques, 3rd ed., 2.15), unless it is sooner in every
run.
Quantiles and shares need neither. A mean whose moments are that skewed comes with a
warning. In studies with mishaps of 10, 5, 1 and 0.1 % in 100 to 4,000 runs nothing
was told in too few runs, and what was told held with 94.2 to 95.0 %; half of the
studies of 100 runs called somebody ahead before there was such a rule.

LOOKING AGAIN AND AGAIN

Settle --runs before you look. Whoever plays more and more runs until something is
ahead will find something ahead, sooner or later, among equals too: 95 % hold for
one look. Looked at seven times, each time with twice as many runs, one of two equal
orders was called ahead in 22 of 100 studies.

compare --until-told N looks for you: after --runs, and each time there are twice
as many, until all orders are told apart at the primary milestones, or N runs are
played. All intervals are then wider and hold at every look: those of an asymptotic
confidence sequence (Waudby-Smith, Arbour, Sinha, Kennedy and Ramdas, Ann. Statist.
52 (2024) 2613-2640, theorem 2.2), narrowest after four times --runs. In the same
studies an equal order was called ahead in 1 of 100. Orders that are the same in
every run, or do not always get there, are not waited for. What moves it and cold
are told as after one look.


WHAT MOVES IT: SHARES OF THE VARIANCE

compare --all and --json share out the variance of each primary milestone among
all that is drawn: the length of each task, the mishaps of each task together,
each arrival, the day, that of a person, the case of the weather.

  alone    (first order) the part of the variance that knowing this one thing
           would take away: the correlation ratio over classes of its values (20
           equal ones of a length), freed of its bias with few runs in a class (Kelley,
           Proc. Natl. Acad. Sci. 21 (1935) 554-559), from all runs
  in all   (total effect) the part that would be left if all else were known:
           half the mean square of what changes when only this is drawn anew, until
           250 runs differ by it (Jansen, Comput. Phys. Commun. 117 (1999) 35-43;
           Homma and Saltelli, Reliab. Eng. Syst. Saf. 52 (1996) 1-17)

What holds a hundredth alone is drawn anew by itself. The others are drawn anew
together, and such a group is halved as long as it holds a hundredth in all, 64
times at most: the total of a group is at least that of each of its members
(sequential bifurcation; Bettonvil and Kleijnen, Identifying the important factors
in simulation models with many factors, Tilburg University, 1994).

Intervals come from leaving out a twentieth of the runs at a time (the jackknife;
Miller, Biometrika 61 (1974) 1-15). What all hold alone, together, is how much
the rows explain; the rest is in what they do to each other, as when a short task
lets somebody else be called. A length that moves nothing may still hold a
milestone up: it is the same every evening. There are no shares with fewer than
200 runs, nor where some run never gets there. "warmby help draws" shows how to
work out such shares of keys of the file, and with more runs.

TWO ORDERS

A difference is the one less the other, run by run, under the same luck: what
both suffer cancels. Its interval is Student's t of these differences, so it is
much narrower than the two means lead one to think. "Sooner in 83 of 100" counts
runs; ties count for neither. JSON says which is a and which is b: below 0 means
that a is sooner.

compare calls the differences at the --primary milestones one family: their
intervals are widened until all hold at once (Bonferroni), and "ahead" is said
where Holm's step-down procedure finds it at 95 % for the family (Scand. J.
Statist. 6 (1979) 65-70). "Ahead of?" is one that Holm finds though its interval
holds 0. Everything else is exploratory: of 20 such intervals one is expected to
miss. Name --primary before you look.

Two orders are also held against each other in what people ask for: how much
sooner the one has come in 5, 8, 9 of 10 and 19 of 20 runs, and in how many more
runs it is in time (--all; JSON has p50 to p95 and on_time_more beside the
difference, and sd_s, the standard deviation of the runs).

  share      more often in time: Wilson's intervals of both, squared and added,
             with what the two have in common taken off (Newcombe, Statist.
             Med. 17 (1998) 2635-2650, method 10)
  quantile   the order statistics of both, squared and added likewise, with the
             correlation of being there by then (Zou and Donner, Statist. Med.
             27 (2008) 1693-1702). In studies of six laws and 100, 500 and 2,000
             runs it held with 95 to 99 %; with more where two orders go closely
             together. It reaches no farther than two orders are apart in any
             run

These hold one by one, and tell nobody ahead.

"No telling", and "cannot be told from the best", mean that luck explains the
difference on these runs. It is not proof that there is none: more --runs may
tell.

SEVERAL ORDERS: HOW NEAR THE BEST

The order that looks best of several looks better than it is: of eight equal ones
the 95 % interval of the one that looks best holds with 82 %. So compare says two
things more of what orders may be taken for (--all; near_best in JSON), which hold
although the order was chosen by the same runs:

  behind    by how much an order is behind the best at most, and which may be the
            best: constrained comparisons with the best (Hsu, Ann. Statist. 12
            (1984) 1136-1144), paired, with Bonferroni's inequality (Nelson and
            Matejcik, Management Science 41 (1995) 1935-1945). With 95 % all of it
            holds at once
  though    the interval of each order's mean or share at the level 1 - 0.05/k for
  chosen    k orders: it held with 97.6 % among eight equal ones

"At most 1 min later than the best" is told on the screen where more than one
order may be the best. Nothing is told where means are in doubt for a rare mishap,
nor where an order does not always get there and has no target.

LUCK, AND YOUR NUMBERS

All intervals take the lengths of the file for true. rehearse, compare and halt
therefore play again, under the same luck, with the numbers doubted: quick and
slow of each task then hold in 8 of 10 cases, as most do that people say, and are
no extremes. They tell from when to when a milestone comes with 8 in 10 either way,
whether the orders that compare takes for something are still best or level with
the best, and by how much the sure moment of halt moves.

--log LOG takes the numbers from a stop-watch log instead, as fit does: luck alone
is then played with the middle of what the log leaves open of lengths, day, mishaps
and stoves, and doubted numbers are 100 sets of them drawn from what it leaves open,
each in its share of the runs. Orders are told apart set by set. What a what-if or
--set says of a length stays. The name of a shipped scenario stands for its
invented log.

Numbers are doubted in 2,000 runs at most, and not where nothing is written as three
values and there is no log, nor by halt with --evaluations.

COLD: IN HOW MANY RUNS

compare keeps the account of cold, which rehearse tells for one run, in the
first 2,000 runs of each order. Its figures are about the coldest person of each
run: in how many runs somebody passes the limit, and how much that person has
lost at most in 5 and in 9 of 10 runs. The same rules hold for them as for
shares and moments. The account is an extension of a standard for steady
exposure; it knows neither wet clothing nor fingers.

BATCH: POINTS AGAINST EACH OTHER

Run 17 meets the same luck at every point. summary.json therefore holds each point
against the first one, run by run, at the milestones with a target (else at all
that are named): from_first_point, with the same figures as two orders have, each
one by one. Make the scenario as it stands the first point of a design. There is
nothing of it where points have seeds, first runs or draws of their own.

Quantiles and shares are held against each other in the first runs of a point, as
many as fit into 2,000,000 moments of all orders and milestones: 100,000 runs of
four orders with five. "runs" says how many.

BATCH: HOW LONG IT GOES ON

Runs are played in chunks of 256, which are on the disk one by one; --resume
goes on from the last whole one and wants the same flags. An --out that exists
is refused unless --force replaces it. --precision looks at the interval of the
milestone, under every order, after a first stage of 2,048 runs (or --runs, if
that is less), and then after between a quarter more and four times as many, as
the width foretells, until it is narrow under all orders or --runs are played.
It stops and says so where no number of runs would do (never in some run: no
mean). A mean is not looked at before a mishap, or a case of the weather, is
expected in 40 of the runs of the point, nor before there are 25 times the square of
the moments' skewness. Though it is looked at again and again, such an interval holds
as often as it says when it is narrow (Chow and Robbins, Ann. Math. Statist. 36
(1965) 457-462): with mishaps of 5, 1 and 0.1 % and two long tails in 93.6 to 95.6 %
of 2,000 studies each, on average 94.9 %.

IMPROVE, SPLIT AND HALT: WHAT IS COUNTED, WHAT IS SURE

improve  counts as an evaluation each play of an order in search: usual values
         or one run, in one case. Judging on fresh runs 0 to --runs - 1 comes on
         top; the search uses others, so a gain is not what the search picked by
         luck. The error of a quantile's gain comes from how much each run
         weighs in it. The best is not chosen by the fresh runs
         unless they tell another from it. Orders that Holm's procedure, over
         all that were judged, does not tell from it are listed. In 500 searches
         among orders that are all equal a gain on the best of the file was told
         in 3; the figure was 1.6 s on average, of half widths up to 53 s: not quite
         0, for an order of the file is kept unless the one found did better in
         these runs. The cold limit
         (--keep-cold-limit, --cold-odds) counts evenings in which nobody
         passes it.
split    counts each run of each split in search; what was chosen is then played
         in --runs fresh ones, and those do not count. Intervals of what things
         are worth hold all together, under one split.
halt     counts every run of every arrival, for --evaluations too. Only the
         arrival moves: weather, dark and targets such as 15:00 stay on the
         clock. It goes by the share, not by an end of its interval, and says
         where that end would be enough. Who gets too cold, and whether all is
         well, is read off the first 2000 runs. --improve searches at up to four
         arrivals, plays each order found at all of them in the same runs as the
         others, and keeps the one that lets one halt latest.

A limit that no order meets (--by-dark, --in-time, --keep-cold-limit) is a
warning: the order that comes nearest is printed and the exit code is 0.

What bends least, of several what-ifs: an order or split is as good as in the
case in which it comes latest, the scenario as it stands among the cases; improve
takes of equals the one that is soonest on average over the cases. A case in
which nothing gets there is named and left out.

"No order can beat" is reckoned for each run, and then the mean or quantile of
it taken. It knows nothing of limits asked for, and the best order may well be
later than it.
`
