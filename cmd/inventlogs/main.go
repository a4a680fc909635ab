// Inventlogs writes the stop-watch logs that the shipped scenarios come with.
// They are invented: each is a few drills of a team that differs from its file by
// a truth that is drawn from a seed. Run it again when a shipped scenario has
// changed:
//
//	go generate ./scenarios/library
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"warmby/scenarios"
	"warmby/scenarios/library"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: inventlogs FOLDER")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "inventlogs:", err)
		os.Exit(1)
	}
}

func write(folder string) error {
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		s, err := scenarios.Read(name, src)
		if err != nil {
			return err
		}
		text, err := logOf(name, s)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if err := os.WriteFile(filepath.Join(folder, name+".csv"), text, 0o644); err != nil {
			return err
		}
	}
	return nil
}
