package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/results"
)

// What batch and merge have in common: the folder they write, and how they tell
// what became of it.

// tellFlags is how the answer of batch and merge is handed out.
type tellFlags struct {
	all    bool
	report string
	sweep  ask.Sweep
}

func (f *tellFlags) declare(flags *pflag.FlagSet) {
	flags.BoolVar(&f.all, "all", false, "print everything, to the second and with intervals")
	flags.StringVar(&f.report, "report", "", "write the whole report as a page: `FILE`.html")
	f.sweep.Declare(flags)
}

// asked reports whether something is to be told of a whole batch.
func (f *tellFlags) asked() bool {
	return f.report != "" || len(f.sweep.Pictures) > 0 || f.sweep.Of != ""
}

// words writes the flags for a command line, each with a space in front.
func (f *tellFlags) words() string {
	text := f.sweep.Words()
	if f.all {
		text += " --all"
	}
	if f.report != "" {
		text += " --report " + ask.ShellWord(f.report)
	}
	return text
}

// outFolder returns the folder of results of a name.
func (e *environment) outFolder(path string) *results.Folder {
	f := results.NewFolder(path)
	f.BeforeNaming = e.beforeNaming
	return f
}

// sweep returns the picture that is asked for; nil for none. Files that cannot
// be written are refused before anything is played.
func (e *environment) sweep(p *results.Plan, f tellFlags, force bool) (*results.Sweep, error) {
	if f.report != "" && !strings.HasSuffix(f.report, ".html") && !strings.HasSuffix(f.report, ".htm") {
		return nil, &mistake.Usage{What: fmt.Sprintf("--report expects a name that ends in .html, got %q", f.report), Cure: "for example: --report batch.html"}
	}
	if err := e.checkPictures(f.sweep.Pictures, force); err != nil {
		return nil, err
	}
	if f.report != "" {
		if err := e.mayWrite(force, append([]string{f.report}, f.sweep.Pictures...)...); err != nil {
			return nil, err
		}
	}
	return results.NewSweep(p, f.sweep)
}

// tellResults prints what became of a batch, and writes its page and its picture.
func (e *environment) tellResults(r *results.Results, folder, command, again string, f tellFlags, force bool) error {
	batched := r.Report(folder, command, again+" --out "+ask.ShellWord(folder)+" --force --all")
	told := batched.Report()
	if f.all || f.report != "" { // nobody else sees it
		study, err := r.Study(batched)
		if err != nil {
			return err
		}
		told.Sections = append(told.Sections, study.Sections()...)
	}
	if len(f.sweep.Pictures) > 0 {
		told.Sections = append(told.Sections, report.Section{Heading: "What varied keys do", Blocks: []report.Block{
			report.Picture{Drawing: r.Picture, Caption: "what varied keys do", Table: r.PictureTable()},
		}, More: true})
	}
	asked := ask.Answer{All: f.all, Report: f.report, Pictures: f.sweep.Pictures, Force: force}
	return e.answer(asked, told, nil, r.Picture)
}
