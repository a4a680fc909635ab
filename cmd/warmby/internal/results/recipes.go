package results

// Draws is the page on draws: what a table of them holds, how to play one's own,
// and recipes. A test runs the programs in it.
const Draws = `DRAWS, OUT AND IN

All luck of a run is uniform numbers, one for each length, mishap, arrival, the
day and the case of the weather; a distribution of the scenario makes a value of
each. "warmby batch --draws" writes them, "warmby batch --play-draws FILE" plays
numbers that you drew yourself. What the file does not name comes from --seed.

  draws.csv has a row for each run and number (all orders meet the same):
  point, run, name, purpose, draw, u, value. "warmby help results" says more.
  With all its digits u gives the same run again, byte for byte.

  FILE is either such a table (run, name, purpose and u are needed; without a
  column point all points have the same draws; runs are taken in rising order
  of their numbers and are then called 0, 1, 2 ..), or a column for each number
  and a row for each run, with headings such as

    day    weather    work: pitch the tent    mishap: light the heater
    mishap 2: light the heater    mishap adds: light the heater
    arrives: Caro    own day: Caro    load arrives: pulk

Numbers are over 0 and under 1, without either end. A mishap happens when u is
under its chance, that of its condition where that holds as work begins; "mishap 2"
is asked only where it may happen again and did.
What takes always the same is not drawn and has no column.

To vary what is no luck, such as air temperature or the number of shovels, give
--design a file with a column for each key and a row for each point ("warmby
batch --help"). Columns seed and run choose the luck of each point: without them
all points meet the same, which is sharp for comparing them; for a regression
over points give each its own run. 250,000 points and 256 MiB of draws are the
most.

The recipes below need numpy and scipy, or R without packages, and take a few
seconds. They use the shipped scenario and one order; put your own in its place.

PYTHON: SOBOL INDICES OF ALL THAT IS DRAWN

Two independent samples A and B of scrambled Sobol points, and A with one column
of B in turn. First order by Saltelli (Comput. Phys. Commun. 181 (2010) 259-270,
table 2 b), total by Jansen (Comput. Phys. Commun. 117 (1999) 35-43).

  # python: sobol.py
  import csv, subprocess
  import numpy as np
  from scipy.stats import qmc

  n, order, milestone = 1024, "drink first", "hot drink"
  def warmby(*words):
      subprocess.run(["warmby", "batch", "kestrel-fell", "--order", order,
                      "--force", *words], check=True, stdout=subprocess.DEVNULL)
  def label(r):
      again = "" if r["draw"] == "1" else " " + r["draw"]
      return r["purpose"] + again + (": " + r["name"] if r["name"] else "")

  warmby("--runs", "1", "--draws", "--out", "names")
  names = [label(r) for r in csv.DictReader(open("names/draws.csv"))]
  k = len(names)
  ab = qmc.Sobol(2 * k, seed=1).random(n)
  ab = np.clip(ab, 2**-40, 1 - 2**-40)        # neither 0 nor 1
  A, B = ab[:, :k], ab[:, k:]
  blocks = [A, B]
  for i in range(k):
      C = A.copy(); C[:, i] = B[:, i]; blocks.append(C)
  with open("design.csv", "w", newline="") as f:
      w = csv.writer(f); w.writerow(names); w.writerows(np.vstack(blocks).tolist())
  warmby("--play-draws", "design.csv", "--out", "sobol")

  y = np.array([float(r["time_s"]) for r in csv.DictReader(open("sobol/runs.csv"))
                if r["milestone"] == milestone]).reshape(k + 2, n)
  y -= y.mean()                               # less noise in the first order
  a, b, c = y[0], y[1], y[2:]
  V = np.var(np.concatenate([a, b]), ddof=1)
  first, total = (b * (c - a)).mean(1) / V, ((a - c)**2).mean(1) / (2 * V)
  for i in np.argsort(-total)[:10]:
      print(f"{names[i]:40} first {first[i]:6.3f}  total {total[i]:6.3f}")
  print(f"all first orders together {first.sum():.2f}")

PYTHON: LATIN HYPERCUBE OR SOBOL POINTS OVER KEYS

  # python: lhs.py
  import csv, subprocess
  import numpy as np
  from scipy.stats import qmc

  keys = ["weather.air", "weather.wind", "spots.kitchen.walk"]
  low, high, unit = [-35, 2, 0.5], [-10, 12, 4], [" C", " m/s", " min"]
  x = qmc.scale(qmc.LatinHypercube(3, seed=1).random(64), low, high)  # or qmc.Sobol(3)
  with open("points.csv", "w", newline="") as f:
      w = csv.writer(f); w.writerow(keys + ["run"])
      for i, row in enumerate(x):
          w.writerow([f"{v:.2f}{u}" for v, u in zip(row, unit)] + [i])
  subprocess.run("warmby batch kestrel-fell --design points.csv --runs 1 "
                 "--order 'drink first' --out lhs --force", shell=True, check=True,
                 stdout=subprocess.DEVNULL)

  # regression: minutes for each unit of a key
  y = np.array([float(r["time_s"]) / 60 for r in csv.DictReader(open("lhs/runs.csv"))
                if r["milestone"] == "hot drink"])
  coef, *_ = np.linalg.lstsq(np.column_stack([np.ones(len(x)), x]), y, rcond=None)
  print(dict(zip(["at 0"] + keys, coef.round(3))))

PYTHON: PLAY SOME RUNS AGAIN

  # python: again.py
  import csv, subprocess

  run = lambda words: subprocess.run("warmby batch kestrel-fell --force " + words,
                                     shell=True, check=True, stdout=subprocess.DEVNULL)
  run("--runs 200 --draws --out all")
  late = sorted((float(r["time_s"]), r["run"]) for r in csv.DictReader(open("all/runs.csv"))
                if r["order"] == "drink first" and r["milestone"] == "heated")[-5:]
  worst = {r for _, r in late}
  rows = list(csv.DictReader(open("all/draws.csv")))
  with open("worst.csv", "w", newline="") as f:
      w = csv.DictWriter(f, rows[0]); w.writeheader()
      w.writerows(r for r in rows if r["run"] in worst)
  run("--play-draws worst.csv --tasks --out worst")   # and with a fourth shovel:
  run("--play-draws worst.csv --what-if 'a fourth shovel' --out shovel")
  print("the five evenings that were warm last:", sorted(map(int, worst)))

PYTHON: A PAPER'S WORTH, FROM THE DESIGN TO THE REPORT

Six factors at 4,096 points: shares of the variance of a mean and of a difference
of two orders, with bootstrapped intervals; the difference itself, paired run by run,
over the design and for the file as it is; and paper.html, in which stands what a
paper has to say of a simulation. The shards may be played on several machines. Some
minutes on two cores; "python3 paper.py 16" is a rehearsal with 128 points.

  # python: paper.py
  import csv, json, subprocess, sys
  import numpy as np
  from scipy.stats import qmc

  n = int((sys.argv[1:] or [512])[0])         # a power of 2; 8 n points
  orders, milestone = ["three groups", "kitchen first"], "ready for the night"
  factors = {"weather.air": (-36, -24, " C"), "site.snow.temperature": (-40, -10, " C"),
             "teamwork": (0.8, 1, ""), "stoves.heater.power": (8, 12, " kW"),
             "stoves.burner.efficiency": (40, 60, " %"),
             "spots.ice hole.walk": (2, 12, " min")}
  k = len(factors)
  ab = qmc.Sobol(2 * k, seed=1).random(n)
  A, B = ab[:, :k], ab[:, k:]
  blocks = [A, B]
  for i in range(k):
      C = A.copy(); C[:, i] = B[:, i]; blocks.append(C)
  with open("design.csv", "w", newline="") as f:
      w = csv.writer(f); w.writerow(factors)
      for row in np.vstack(blocks):
          w.writerow([f"{lo + (hi - lo) * u:.4f}{unit}"
                      for u, (lo, hi, unit) in zip(row, factors.values())])

  def warmby(*words):
      subprocess.run(["warmby", *words, "--force"], check=True, stdout=subprocess.DEVNULL)
  batch = ["batch", "lake-ossamer", "--order", orders[0], "--order", orders[1]]
  for part in "12":
      warmby(*batch, "--design", "design.csv", "--runs", "50",
             "--shard", part + "/2", "--out", "parts/" + part)
  warmby("merge", "parts", "--out", "paper", "--report", "paper.html")

  points = json.load(open("paper/summary.json"))["points"]
  def mean(p, o):
      return next(m["mean_s"] for m in p["orders"][o]["milestones"]
                  if m["name"] == milestone) / 60
  y = np.array([[mean(p, o) for p in points] for o in range(2)])

  def shares(y):                              # rows: A, B, then A with one column of B
      a, b, c = y[0], y[1], y[2:]
      v = np.var(np.concatenate([a, b]), ddof=1)
      return np.array([(b * (c - a)).mean(1) / v, ((a - c)**2).mean(1) / (2 * v)])
  rng = np.random.default_rng(1)
  for what, z in [(orders[0], y[0]),
                  ("by how much " + orders[1] + " is later", y[1] - y[0])]:
      z = z.reshape(k + 2, n)
      z = z - z.mean()
      again = [shares(z[:, rng.integers(0, n, n)]) for _ in range(1000)]
      low, high = np.quantile(again, [0.025, 0.975], axis=0)
      print(f"{milestone}, {what}: shares of the variance, alone and in all")
      for i, (name, first, total) in enumerate(zip(factors, *shares(z))):
          print(f"  {name:25} {first:6.3f} ({low[0, i]:.3f} to {high[0, i]:.3f})"
                f"  {total:6.3f} ({low[1, i]:.3f} to {high[1, i]:.3f})")

  def paired(p):
      return next(d for d in p["differences"] if d["milestone"] == milestone)
  d = [paired(p)["difference"] for p in points]
  sooner = np.array([x["sooner_s"] for x in d]) / 60
  clear = [x["ci95_s"][0] * x["ci95_s"][1] > 0 for x in d]
  print(f"{orders[0]} is sooner by {np.median(sooner):.1f} min at the middle point,"
        f" {sooner.min():.1f} to {sooner.max():.1f} at all (below 0 it is later);"
        f" 0 is not in {sum(clear)} of {len(d)} intervals")
  warmby(*batch, "--runs", "1000", "--out", "asis")
  p = paired(json.load(open("asis/summary.json"))["points"][0])
  print("as the file is:", p["difference"], "ahead:", p["ahead"])

R: LATIN HYPERCUBE OF DRAWS, AND REGRESSION ON RANKS

  # R: lhs.R
  warmby <- function(...) stopifnot(system2("warmby", c("batch", "kestrel-fell",
    "--order", shQuote("drink first"), "--force", ...), stdout = FALSE) == 0)
  set.seed(1)
  n <- 200
  warmby("--runs", "1", "--draws", "--out", "rnames")
  d <- read.csv("rnames/draws.csv")
  names <- ifelse(d$name == "" | is.na(d$name), d$purpose,
                  paste0(d$purpose, ifelse(d$draw > 1, paste0(" ", d$draw), ""), ": ", d$name))
  u <- sapply(names, function(x) (sample(n) - runif(n)) / n)   # one in each of n strips
  u <- pmin(pmax(u, 1e-9), 1 - 1e-9)
  write.csv(u, "rdesign.csv", row.names = FALSE)
  warmby("--play-draws", "rdesign.csv", "--out", "rlhs")
  runs <- read.csv("rlhs/runs.csv")
  y <- rank(subset(runs, milestone == "hot drink")$time_s)
  fit <- lm(y ~ apply(u, 2, rank))
  beta <- setNames(coef(fit)[-1], names) # standardised: all are ranks of n
  print(round(head(beta[order(-abs(beta))], 8), 3))
  cat("explained:", round(summary(fit)$r.squared, 2), "\n")

R: TWO ORDERS UNDER THE SAME LUCK, AND WHAT EXPLAINS THEIR DIFFERENCE

  # R: paired.R
  stopifnot(system2("warmby", c("batch", "kestrel-fell", "--runs", "500", "--draws",
    "--out", "rpair", "--force"), stdout = FALSE) == 0)
  runs <- subset(read.csv("rpair/runs.csv"), milestone == "hot drink")
  wide <- reshape(runs[c("run", "order", "time_s")], idvar = "run",
                  timevar = "order", direction = "wide")
  d <- (wide[["time_s.drink first"]] - wide[["time_s.shelter first"]]) / 60
  print(t.test(d)$conf.int)
  draws <- read.csv("rpair/draws.csv")
  draws <- subset(draws, purpose == "work")
  u <- reshape(draws[c("run", "name", "u")], idvar = "run", timevar = "name", direction = "wide")
  r <- sapply(u[-1], cor, d)
  print(round(head(sort(abs(r), decreasing = TRUE), 5), 2))
`
