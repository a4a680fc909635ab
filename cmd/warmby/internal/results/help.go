package results

const Help = `RESULTS OF A BATCH

"warmby batch" writes a folder. All files in it are the same, byte for byte, for
the same scenario, flags and version, whatever the number of workers or shards.

  runs.csv          when each milestone was reached in each run
  points.csv        what is varied at each point
  tasks.csv         with --tasks: what became of each task
  people.csv        with --people: what each person was about, and how cold it got
  cold.csv          with --cold: how cold each person gets
  fuel.csv          with --fuel: what stoves burned
  draws.csv         with --draws: what was drawn (warmby help draws)
  summary.json      means, quantiles and shares with their 95 % intervals
  datapackage.json  what the columns mean, units, seed, version, and the SHA-256
                    of the scenario file, in the Data Package form
  methods.txt       a paragraph for the methods section of a paper
  scenario.yaml     the scenario that was played

With --format parquet all tables with runs in them are Parquet files with the same
columns, and seed, version and scenario in their key/value metadata.

COLUMNS

  point      from 1 on; points.csv says what is varied there
  run        from 0 on, or from where the point says in its column "run". Run 17 meets the same luck at every point and under
             every order: compare within a run. "warmby rehearse --seed 1
             --run 17" plays it once more (of the scenario as it is).
  order      the drill order; empty when the scenario has none
  milestone  its name; finish is when every task has ended
  time_s     seconds since arrival, with three decimals; empty is never
  task       its name; "unpack .." takes an item off its load
  start_s    when the whole crew was there and work began; empty is never
  end_s      when the task ended; empty is never
  called_s   when its crew was called and its tools were taken
  mishaps    how many it has in this run, and in mishap_s what they add
  people     all who were there at some time, with semicolons between
  critical_of  the milestones that it decided when they came, likewise: those on
             whose critical sequence it is
  person     who
  working_s, walking_s, waiting_s, lookout_s, free_s
             how long the person works, walks to a task or lookout, is at a task
             and waits for the rest of its crew, stands at a lookout, has nothing
             to do; together from its arrival until the last task has ended
  peak_wh_m2   the most heat that the person has lost and not yet won back at
               any moment, in Wh for each square metre of skin; empty is no
               account: no weather, clothing not given, or a run that came to a
               stop
  peak_at_s    when that was; empty is no account
  passed_at_s  when it first reached the limit of 40 Wh/m2; empty is never, or
               no account (then the peak is empty too)
  stove      a kind of stove, all of that kind together
  burning_s  how long they burn; fuel_mL or fuel_g how much, whichever the fuel is
             counted in

The account of cold is our extension of a standard for steady exposure (ISO
11079), which knows neither wet clothing nor fingers; it is no medical advice. A
batch takes two to three times as long with it.

points.csv has the number of runs of each point and a column for each key that
was varied, with the values as they were given: "-40 C"; that of the key "run" is
called first_run. Beside such a column
stands another with numbers, whose heading names the unit: weather.air_C. Units
are s, C, m_per_s, m, kg, L, W, kg_per_m3, W_per_m2K, kJ_per_K, per_h, clo,
share, m3 and m2. An empty cell means: as in the scenario.

A scenario without orders has an empty order in every row, which R and Python
take for a missing value and leave out, unless told as below.

Empty is never, and never is no missing value: leave such rows out of a mean and
the mean is too good. Count them, or use quantiles with never as infinity.

Where a run never gets there under either order, there is no mean difference
between them: count in how many runs each is sooner.

IN R

  runs   <- read.csv("evening/runs.csv", check.names = FALSE,
                     colClasses = c(order = "character"))
  points <- read.csv("evening/points.csv", check.names = FALSE)
  runs   <- merge(runs, points, by = "point")
  hot    <- subset(runs, milestone == "hot drink")
  hot$time_s[is.na(hot$time_s)] <- Inf
  aggregate(time_s / 60 ~ order, hot, quantile, c(0.5, 0.9), type = 1)

  # two orders under the same luck, run by run
  wide <- reshape(hot[c("point", "run", "order", "time_s")],
                  idvar = c("point", "run"), timevar = "order",
                  direction = "wide")
  t.test(wide[["time_s.drink first"]], wide[["time_s.shelter first"]],
         paired = TRUE)

  # Parquet (package arrow)
  runs <- arrow::read_parquet("evening/runs.parquet")

IN PYTHON

  import numpy as np, pandas as pd
  runs = pd.read_csv("evening/runs.csv", keep_default_na=False,
                     na_values={"time_s": [""]})
  runs = runs.merge(pd.read_csv("evening/points.csv"), on="point")
  hot = runs[runs.milestone == "hot drink"].fillna({"time_s": np.inf})
  by_order = hot.groupby("order").time_s
  for p in (0.5, 0.9):
      print(p, by_order.apply(np.quantile, p, method="inverted_cdf") / 60)

  # two orders under the same luck, run by run
  wide = hot.pivot(index=["point", "run"], columns="order", values="time_s")
  print((wide["drink first"] - wide["shelter first"]).describe())

  # Parquet (package pyarrow)
  runs = pd.read_parquet("evening/runs.parquet")

IN A SPREADSHEET

Where a spreadsheet writes a decimal comma, ask for --csv excel-eu: semicolons
between columns, decimal commas, and a mark at the beginning that tells it the
text is UTF-8. A name that begins with =, +, - or @ gets an apostrophe in front,
so that it is not worked out as a formula. A sheet holds some million rows:
100,000 runs with ten milestones are that many.
In R that dialect is read.csv2, in Python read_csv(sep=";", decimal=",").

A picture of what varied keys do is drawn at once by batch --picture.

FIGURES IN summary.json

It tells of the first 10,000 points. For each point and order: all_in_time, the
share of runs in which every target is met; nobody_too_cold, with --cold or
--people the share in which nobody passes the cold limit; all_well, both.

For each point, order and milestone: mean_s with mean_ci95_s; p50_s, p80_s,
p90_s and p95_s with their intervals (to the whole second); never and
never_in; by_s and on_time where it has a target; first: in what share of
runs no other order is sooner. A mean is null when some run never gets there,
and "why" says so. An end of an interval is null when the runs are too few to
tell it, or when it is never. differences holds every two orders against each
other, run by run; they are marked exploratory since nobody said beforehand
which of them the question is about. "warmby compare --primary" does that.
from_first_point holds each further point against the first one in the same way.
Both have p50, p80, p90, p95 (how much sooner in so many runs) and on_time_more
(in how much larger a share of the runs it is in time) beside the mean difference;
sd_s is the standard deviation behind a mean.
"warmby help odds" tells how all of these are made.

VERSIONS

"warmby" in datapackage.json has what the results depend on: scenario, seed,
points, the version of the program, the number of its engine and the SHA-256 of
the engine's source. Shards in which any of these differ are not merged, so that
two builds without a version are not mixed unseen.

SHARDS AND INTERRUPTIONS

While a batch is played, a folder whose name ends in .part holds its journal,
which is on the disk after every 256 runs. Whatever ends the program, the same
command with --resume goes on from there. A shard's folder keeps its journal:
warmby merge makes the tables of all of them.
`
