// Package library holds the scenarios that warmby ships, inside the program.
package library

import (
	"embed"
	"slices"
	"strings"
)

//go:embed *.yaml
var files embed.FS

// Default is the name of the scenario that stands in when none is named.
const Default = "kestrel-fell"

const ending = ".yaml"

// Names returns the names of the shipped scenarios, without ".yaml": the
// default first, the others by the alphabet.
func Names() []string {
	names := []string{Default}
	entries, err := files.ReadDir(".")
	if err != nil {
		panic("library: " + err.Error()) // the folder is part of the program
	}
	for _, e := range entries {
		if name := strings.TrimSuffix(e.Name(), ending); name != Default {
			names = append(names, name)
		}
	}
	slices.Sort(names[1:])
	return names
}

// Read returns the text of a shipped scenario, named with or without
// ".yaml". Ok is false when no scenario has that name.
func Read(name string) (src []byte, ok bool) {
	name = strings.TrimSuffix(name, ending)
	if !slices.Contains(Names(), name) {
		return nil, false
	}
	src, err := files.ReadFile(name + ending)
	return src, err == nil
}
