// Package ask is a question as people put it, before anything is played: how
// the flags that commands share are called and what they say, and how the
// answer is to be handed out. It knows no command.
package ask

import (
	"fmt"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"warmby/cmd/warmby/internal/mistake"
)

// MostWorkers is how many processors may be asked for.
const MostWorkers = 4096

// Each function here declares one flag that several commands have, in one
// wording.

// Order declares --order for a command that plays one order.
func Order(flags *pflag.FlagSet, order *string) {
	flags.StringVar(order, "order", "", "play this order: `NAME`; else the first of the file")
}

// Orders declares --order for a command that plays several; unless says what
// is played without the flag.
func Orders(flags *pflag.FlagSet, orders *[]string, unless string) {
	flags.StringArrayVar(orders, "order", nil, "play this order: `NAME`; several, or all; else "+unless)
}

// WhatIf declares --what-if for a command that plays one scenario.
func WhatIf(flags *pflag.FlagSet, whatIf *string) {
	flags.StringVar(whatIf, "what-if", "", "change the scenario by this what-if of the file: `NAME`")
}

// WhatIfs declares --what-if for a command that plays several cases.
func WhatIfs(flags *pflag.FlagSet, whatIfs *[]string) {
	flags.StringArrayVar(whatIfs, "what-if", nil, "also play this what-if of the file: `NAME`; several, or all")
}

// Milestone declares --milestone; unless says which one is meant without it.
func Milestone(flags *pflag.FlagSet, milestone *string, unless string) {
	flags.StringVar(milestone, "milestone", "", "milestone asked about: `NAME`; else "+unless)
}

// Runs declares --runs.
func Runs(flags *pflag.FlagSet, runs *int, standard int, of string) {
	flags.IntVar(runs, "runs", standard, "play `N` runs"+of)
}

// Seed declares --seed.
func Seed(flags *pflag.FlagSet, seed *uint64) {
	flags.Uint64Var(seed, "seed", 1, "draw the runs with this seed `N`")
}

// Workers declares --workers.
func Workers(flags *pflag.FlagSet, workers *int) {
	flags.IntVar(workers, "workers", 0, "use `N` processors, else all; results do not depend on it")
}

// SettleWorkers checks a number of workers; 0 stands for all processors.
func SettleWorkers(workers *int) error {
	switch {
	case *workers < 0 || *workers > MostWorkers:
		return &mistake.Usage{
			What: fmt.Sprintf("--workers expects a whole number from 1 to %d, got %d", MostWorkers, *workers),
			Cure: "left out, all processors are used",
		}
	case *workers == 0:
		*workers = runtime.GOMAXPROCS(0)
	}
	return nil
}

// Answer says how an answer is handed out.
type Answer struct {
	All      bool     // everything, with seconds and intervals
	JSON     bool     // for programs
	Force    bool     // overwrite files that exist
	Report   string   // a file for the report as a page; "" for none
	Pictures []string // files for the picture
}

// Declare adds the flags; picture says what the picture shows.
func (a *Answer) Declare(flags *pflag.FlagSet, picture string) {
	a.DeclareWithoutPicture(flags)
	flags.StringArrayVar(&a.Pictures, "picture", nil, "write a picture of "+picture+": `FILE`.svg, .png or .pdf")
}

// DeclareWithoutPicture is Declare for an answer of which there is no picture.
func (a *Answer) DeclareWithoutPicture(flags *pflag.FlagSet) {
	flags.BoolVar(&a.All, "all", false, "print everything, to the second and with intervals")
	flags.BoolVar(&a.JSON, "json", false, "print the answer as JSON, for programs")
	flags.StringVar(&a.Report, "report", "", "write the whole report as a page: `FILE`.html")
	flags.BoolVar(&a.Force, "force", false, "overwrite files that exist")
}

// Files lists the files that are to be written.
func (a *Answer) Files() []string {
	if a.Report == "" {
		return a.Pictures
	}
	return append(slices.Clone(a.Pictures), a.Report)
}

// Check refuses what does not go together and names that no file can have.
func (a *Answer) Check() error {
	if a.All && a.JSON {
		return &mistake.Usage{What: "--all and --json do not go together", Cure: "--json has everything already"}
	}
	if a.Report != "" && !slices.Contains([]string{".html", ".htm"}, strings.ToLower(filepath.Ext(a.Report))) {
		return &mistake.Usage{What: fmt.Sprintf("--report expects a name that ends in .html, got %q", a.Report), Cure: "for example: --report evening.html"}
	}
	for _, p := range a.Pictures {
		if _, err := PictureFormat(p); err != nil {
			return err
		}
	}
	return nil
}

// PictureFormat tells the format of a picture by the ending of its name: "svg",
// "png" or "pdf".
func PictureFormat(path string) (string, error) {
	switch ext := strings.ToLower(filepath.Ext(path)); ext {
	case ".svg", ".png", ".pdf":
		return ext[1:], nil
	}
	return "", &mistake.Usage{What: fmt.Sprintf("--picture expects a name that ends in .svg, .png or .pdf, got %q", path), Cure: "the ending chooses the format"}
}
