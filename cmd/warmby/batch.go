package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/results"
	"warmby/sim/batch"
)

const batchUsage = `Plays many runs of a scenario into tables for R, Python or a spreadsheet: all
drill orders, and, with --vary, many variants of the scenario, all under the
same luck. "warmby help results" describes the tables and how to read them.

--vary takes people=N, and any key of the scenario by its path: weather.air (in
all rows), tools.saw, stoves.heater.power, tasks.pitch the tent.crew. Values are
a list or a range: 4..10, "5 kW, 7 kW", "-40 C..-10 C step 5 C". Several --vary
go together as a grid, or one at a time with the rest as in the file.

A batch with points at which the drill can never finish under one of the orders,
such as a crew larger than the team, is not begun; --skip-impossible leaves them
out and says so. A drill counts as one of those when it comes to a stop with usual
values and in each of the first ten runs.

--set is --vary with one value: the tables say it in a column. Four more keys are
no keys of the file: "what if" changes the scenario by a what-if of it (--what-if
is that with one value), "without" takes people away ("Caro", "Caro+Berend"),
seed and run say with which seed, and from which run on, a point is played.

--tasks, --people, --cold, --fuel and --draws write further tables, a row for
each task, person, stove and number drawn in each run. --play-draws plays numbers
that you drew yourself: warmby help draws.

--precision goes on at each point until the 95 % interval of a milestone is so
narrow under every order: "hot drink p90 1 min", "heated mean 30 s", "heated on
time 1 %"; --runs is the most then, 1,000,000 unless given.

--picture draws what varied keys do to one milestone: one key as a line for each
order with its interval, two keys as a map for each order with the minutes in
its cells. It shows the mean of the first milestone with a target, or what
--picture-of names: "heated", "hot drink p90".

--report writes the answer as a page. There, and with --all, stands what a paper has
to say of a simulation, item by item of the checklist STRESS-DES, filled in from the
file and the runs; what only you know is named as a gap.

A batch can be split into shards for a cluster and put together by warmby merge,
and one that was interrupted goes on with --resume: the result is the same, byte
for byte, and does not depend on the number of workers either. Which shard to play
is said by --shard, or, with --shards alone, by the index that a Slurm array or an
indexed Kubernetes job gives. How intervals are made, and when --precision stops:
warmby help odds.

Usage:
  warmby batch [FILE] [flags]

Examples:
  warmby batch --out evening
  warmby batch kestrel-fell --runs 500 --vary people=4..8 --out sizes
  warmby batch mine.yaml --runs 500 --vary "weather.air=-30 C..-10 C step 10 C" --out cold
  warmby batch --runs 500 --vary people=4..8 --out team --picture team.svg
  warmby batch --runs 200 --tasks --people --fuel --draws --out told
  warmby batch kestrel-fell --precision "hot drink p90 2 min" --out precise
  warmby batch --runs 500 --shard 1/2 --out part1
  warmby batch --runs 1000000 --shards 16 --job slurm
`

type batchFlags struct {
	results.Question
	out, shard, job        string
	workers, shards        int
	tell                   tellFlags
	resume, force          bool
	runsGiven, shardsGiven bool
}

func batchCommand(e *environment) *cobra.Command {
	var f batchFlags
	cmd := &cobra.Command{
		Use:               "batch [FILE]",
		Short:             "many runs, and variants of a scenario, into tables",
		Long:              batchUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			f.runsGiven, f.shardsGiven = cmd.Flags().Changed("runs"), cmd.Flags().Changed("shards")
			return e.batch(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.IntVar(&f.Runs, "runs", results.UsualRuns, "how many runs each order has, with --precision the most: `N`")
	flags.Uint64Var(&f.Seed, "seed", 1, "draw the runs with this seed `N`")
	flags.StringArrayVar(&f.Orders, "order", nil, "play this drill order only; may be given several times: `NAME`")
	flags.StringArrayVar(&f.Vary, "vary", nil, "vary a key, as people=4..10; may be given several times: `KEY=VALUES`")
	ask.Set(flags, &f.Set)
	ask.WhatIf(flags, &f.WhatIf)
	flags.StringVar(&f.How, "vary-how", results.Grid, "how several --vary go together, grid or one-at-a-time: `HOW`")
	flags.StringVar(&f.Design, "design", "", "vary as a CSV file says, a column for each key, a row for each point: `FILE`")
	flags.BoolVar(&f.Skip, "skip-impossible", false, "leave out points at which the drill can never finish")
	flags.StringVar(&f.Precision, "precision", "", "go on until an interval is so narrow: `WHAT`")
	flags.StringVar(&f.out, "out", "", "write this folder, named after the scenario unless given: `DIR`")
	flags.StringVar(&f.Format, "format", results.CSV, "write runs, tasks and cold as csv or parquet: `FORMAT`")
	flags.StringVar(&f.CSV, "csv", results.Plain, "write CSV files plain, or excel-eu with a decimal comma: `DIALECT`")
	flags.StringVar(&f.Given, "play-draws", "", "play the draws of a CSV file in place of those of the seed: `FILE`")
	flags.BoolVar(&f.Tasks, "tasks", false, "also write what became of each task in each run")
	flags.BoolVar(&f.People, "people", false, "also write what each person was about in each run, and how cold it got")
	flags.BoolVar(&f.Fuel, "fuel", false, "also write what stoves burned in each run")
	flags.BoolVar(&f.Draws, "draws", false, "also write what was drawn in each run")
	flags.BoolVar(&f.Cold, "cold", false, "also write how cold each person gets in each run")
	flags.IntVar(&f.workers, "workers", 0, "how many processors to use, all unless given: `N`")
	flags.StringVar(&f.shard, "shard", "", "play one part of N only, I from 1 on, for warmby merge: `I/N`")
	flags.IntVar(&f.shards, "shards", 0, "how many shards there are, for clusters and --job: `N`")
	flags.StringVar(&f.job, "job", "", "print a job file for a cluster instead, slurm or kubernetes: `CLUSTER`")
	f.tell.declare(flags)
	flags.BoolVar(&f.resume, "resume", false, "go on with what was interrupted; give the same flags again")
	flags.BoolVar(&f.force, "force", false, "replace a folder of results that exists")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(ask.WhatIfNames))
	cmd.RegisterFlagCompletionFunc("picture-of", e.completeOf(ask.MilestoneNames))
	for flag, values := range map[string][]string{
		"vary-how": {results.Grid, results.OneAtATime}, "format": {results.CSV, results.Parquet}, "csv": {results.Plain, results.ExcelEU}, "job": {"slurm", "kubernetes"},
	} {
		cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
	}
	return cmd
}

// check refuses what does not go together, before a file is read, and settles
// what was left out.
func (f *batchFlags) check() error {
	f.Version = version()
	switch {
	case f.runsGiven:
	case f.Precision != "":
		f.Runs = results.MostRuns
	case f.Given != "":
		f.Runs = 0 // as many as the file has
	}
	if err := f.Question.Check(); err != nil {
		return err
	}
	if err := ask.SettleWorkers(&f.workers); err != nil {
		return err
	}
	if err := results.OneOf("job", f.job, []string{"", "slurm", "kubernetes"}); err != nil {
		return err
	}
	switch {
	case f.shardsGiven && (f.shards < 1 || f.shards > batch.MaxShards):
		return &mistake.Usage{What: fmt.Sprintf("--shards expects a whole number from 1 to %d, got %d", batch.MaxShards, f.shards), Cure: "a part should take a minute or more: starting one takes time as well"}
	case f.job != "" && f.shard != "":
		return &mistake.Usage{What: "--job writes a job that plays all shards, and --shard asks for one of them", Cure: "leave --shard out"}
	case f.resume && f.force:
		return &mistake.Usage{What: "--resume and --force exclude each other", Cure: "--resume goes on with what is there, --force begins anew"}
	}
	return nil
}

func (e *environment) batch(ctx context.Context, args []string, f batchFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	job, err := results.NewJob(src, f.Question)
	if err != nil {
		return err
	}
	if f.job != "" {
		return e.printJobFile(ctx, job, src, f)
	}
	shard, from, err := results.WhichShard(f.shard, f.shards)
	if err != nil {
		return err
	}
	if job.Precision != "" && !shard.Whole() {
		return &mistake.Usage{What: "--precision decides how many runs to play as it goes, and cannot be split into shards", Cure: "find the number of runs first, then give it as --runs"}
	}
	if job.Given != "" && !shard.Whole() {
		return &mistake.Usage{What: "--play-draws cannot be split into shards", Cure: "one machine plays a million runs in minutes"}
	}
	plan, err := job.Ready(ctx)
	if err != nil {
		return err
	}
	for i := range job.LeftOut {
		e.note("left out: %s", job.LeftOut[i].Text(job.Keys))
	}
	sweep, err := e.sweep(plan, f.tell, f.force)
	if err != nil {
		return err
	}
	if sweep != nil && !shard.Whole() {
		return &mistake.Usage{What: "--picture shows a whole batch, and this is a shard of one", Cure: "give --picture to warmby merge"}
	}
	plan.Shard = shard
	if from != "" {
		e.note("shard %d of %d, as %s says", shard.Index, shard.Of, from)
	} else if name := results.InArray(); name != "" && f.shard == "" {
		e.note("%s is set, and all of the batch is played; with --shards N each index plays its part", name)
	}
	b := &batchRun{e: e, f: f, arg: src.Arg, job: job, plan: plan, sweep: sweep, out: e.outFolder(f.outName(job, shard))}
	return b.do(ctx)
}

// outName returns the folder to write.
func (f *batchFlags) outName(job *results.Job, shard batch.Shard) string {
	switch {
	case f.out != "":
		return f.out
	case shard.Whole():
		return job.Name
	}
	return fmt.Sprintf("%s-shard-%d-of-%d", job.Name, shard.Index, shard.Of)
}

// batchRun is one batch, or one shard of it, on its way into a folder.
type batchRun struct {
	e    *environment
	f    batchFlags
	arg  string // FILE that reads the scenario again
	job  *results.Job
	plan *results.Plan
	out  *results.Folder

	sweep *results.Sweep // nil when none is asked for
}

func (b *batchRun) do(ctx context.Context) error {
	done, err := b.out.Open(b.f.resume, b.f.force)
	if err != nil {
		return err
	}
	if done {
		return b.finishedBefore()
	}
	defer b.out.Close()
	b.e.tidies.Store(true) // from here on an interrupt saves what is done
	course, err := b.begin()
	if err != nil {
		return err
	}
	if err := b.play(ctx, course); err != nil {
		return b.interrupted(err, course)
	}
	if !b.plan.Shard.Whole() {
		return b.finishShard(course)
	}
	p := b.e.progress("writing")
	defer p.end()
	r, err := results.Write(ctx, b.plan, b.out.Part, []string{b.out.JournalPath()}, b.f.workers, b.sweep, p.update)
	if err != nil {
		b.out.Clear(results.Journal)
		return b.interrupted(err, course)
	}
	if err := b.out.Finish(b.f.force, false); err != nil {
		return err
	}
	command := b.job.Here().Command(b.arg)
	return b.e.tellResults(r, b.out.Path, command, command, b.f.tell, b.f.force)
}

// begin opens the journal: a new one, or what an interrupted batch left.
func (b *batchRun) begin() (*batch.Course, error) {
	course := b.plan.Course()
	header, err := b.job.Header(b.plan.Shard, b.arg)
	if err != nil {
		return nil, err
	}
	kept, err := b.out.OpenJournal(header, course, b.f.resume)
	if err != nil {
		return nil, err
	}
	if kept {
		b.e.note("going on after %s of %s runs, kept in %s", grouped(course.Done()), grouped(course.Done()+course.Left()), b.out.Part)
	}
	return course, nil
}

func (b *batchRun) play(ctx context.Context, course *batch.Course) error {
	p := b.e.progress("playing")
	defer p.end()
	p.begin(course.Done())
	var buf []byte
	return batch.Play(ctx, course, b.f.workers, func(ready []*batch.Chunk) error {
		buf = buf[:0]
		for _, c := range ready {
			buf = batch.AppendRecord(buf, c)
		}
		if err := b.out.Append(buf, course.Done()); err != nil {
			return fmt.Errorf("cannot write %s: %w", b.out.JournalPath(), mistake.Reason(err))
		}
		p.update(course.Done(), course.Left())
		return nil
	})
}

// interrupted says what is kept of a batch that did not get to its end.
func (b *batchRun) interrupted(err error, course *batch.Course) error {
	done, again := b.out.Runs, b.repeat()
	if !errors.Is(err, context.Canceled) {
		return mistake.WithHint(err, "%s runs are kept in %s; when the cause is gone, go on with: %s", grouped(done), b.out.Part, again)
	}
	b.e.note("interrupted; %s of %s runs are kept in %s", grouped(done), grouped(course.Done()+course.Left()), b.out.Part)
	fmt.Fprintf(b.e.stderr, "hint: go on with: %s\n", again)
	return &exitError{exitInterrupted}
}

func (b *batchRun) finishShard(course *batch.Course) error {
	if err := b.out.Finish(b.f.force, true); err != nil {
		return err
	}
	_, err := fmt.Fprintf(b.e.stdout, "Shard %d of %d: %s runs of %s at %s, in %s\nPut all shards together with: warmby merge DIR..\n",
		b.plan.Shard.Index, b.plan.Shard.Of, grouped(course.Done()), report.Counted(len(b.job.Orders), "order"), report.Counted(b.plan.Points, "point"), b.out.Path)
	return err
}

// finishedBefore answers --resume of what is already there: the same batch is
// done, another one is in the way.
func (b *batchRun) finishedBefore() error {
	old, err := results.FinishedJob(b.out.Path)
	if err != nil {
		return err
	}
	if why := b.job.Differs(old, "asked for", "there"); why != "" {
		return mistake.WithHint(mistake.Exists{Path: b.out.Path}, "it holds another batch (%s); give another --out, or --force to replace it", why)
	}
	if b.sweep != nil {
		return mistake.WithHint(fmt.Errorf("%s is finished, and its picture can no longer be drawn", b.out.Path), "--force in place of --resume plays it again")
	}
	tidied, err := b.out.Tidy(!b.plan.Shard.Whole())
	if err != nil {
		return err
	}
	if tidied {
		b.e.note("took away what a killed run left of %s", b.out.Path)
	}
	b.e.note("%s is finished: nothing to go on with", b.out.Path)
	return nil
}

// repeat returns the command that goes on with the batch.
func (b *batchRun) repeat() string {
	command := b.job.Here().Command(b.arg)
	if !b.plan.Shard.Whole() {
		command += " --shard " + b.plan.Shard.String()
	}
	if b.out.Path != (&batchFlags{}).outName(b.job, b.plan.Shard) {
		command += " --out " + ask.ShellWord(b.out.Path)
	}
	return command + b.f.tell.words() + " --resume"
}

// printJobFile prints what a cluster needs to play the batch in shards.
func (e *environment) printJobFile(ctx context.Context, job *results.Job, src *ask.Source, f batchFlags) error {
	switch {
	case !f.shardsGiven:
		return &mistake.Usage{What: "--job needs --shards N, how many parts the batch is split into", Cure: "a part should take a minute or more: starting one takes time as well"}
	case f.tell.asked():
		return &mistake.Usage{What: "--picture shows a whole batch, and a job plays it in shards", Cure: "give --picture to the warmby merge at its end"}
	case src.Arg == "-":
		return &mistake.Usage{What: "--job needs a FILE that the machines of the cluster can read, not standard input", Cure: "save the scenario first"}
	case job.Given != "":
		return &mistake.Usage{What: "--play-draws cannot be split into shards", Cure: "one machine plays a million runs in minutes"}
	case job.Precision != "":
		return &mistake.Usage{What: "--precision cannot be split into shards", Cure: "find the number of runs first, then give it as --runs"}
	}
	if _, err := job.Ready(ctx); err != nil {
		return err
	}
	text := results.KubernetesJob(job, src.Arg, f.shards)
	if f.job == "slurm" {
		text = results.SlurmJob(job, src.Arg, f.out, f.shards)
	}
	_, err := io.WriteString(e.stdout, text)
	return err
}
