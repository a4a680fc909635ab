package main

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"strings"
	"testing"
)

// Commands are thin and use nothing of one another, nor does what they share use
// any of them: what two of them need has a file of its own, or stands in a package
// below internal.
func TestCommandsUseNothingOfOneAnother(t *testing.T) {
	var commands []string
	for _, c := range rootCommand(&environment{}).Commands() {
		commands = append(commands, c.Name())
	}
	of := func(file string) string { // whose file it is; "" for what all share
		for _, c := range commands {
			if file == c+".go" || strings.HasPrefix(file, c+"_") {
				return c
			}
		}
		return ""
	}
	for use := range usesBetweenFiles(t) {
		if to := of(use.to); to != "" && of(use.from) != to && use.from != "root.go" { // which lists them
			t.Errorf("%s uses %s of %s", use.from, use.name, use.to)
		}
	}
}

// use is a name of this package that one of its files uses of another.
type use struct{ from, to, name string }

func usesBetweenFiles(t *testing.T) map[use]bool {
	t.Helper()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") || strings.HasSuffix(name, "_js.go") || strings.HasSuffix(name, "_other.go") {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	info := &types.Info{Uses: map[*ast.Ident]types.Object{}}
	check := types.Config{Importer: nothing{}, Error: func(error) {}} // only what stands here is looked up
	pkg, _ := check.Check("main", fset, files, info)
	uses := map[use]bool{}
	for id, object := range info.Uses {
		if object.Pkg() != pkg {
			continue
		}
		from, to := fset.Position(id.Pos()).Filename, fset.Position(object.Pos()).Filename
		if from != to && to != "" {
			uses[use{from, to, object.Name()}] = true
		}
	}
	if len(uses) < 100 {
		t.Fatalf("only %d names are used by another file, want more: is anything looked up?", len(uses))
	}
	return uses
}

// nothing imports no package.
type nothing struct{}

func (nothing) Import(string) (*types.Package, error) { return nil, errors.New("not looked up") }
