package scenarios

import (
	"testing"

	"warmby/scenarios/library"
)

// Every shipped scenario reads cleanly, under all its what-ifs and orders.
func TestShippedScenariosRead(t *testing.T) {
	for _, name := range library.Names() {
		t.Run(name, func(t *testing.T) {
			src, _ := library.Read(name)
			s, err := Read(name+".yaml", src)
			if err != nil {
				t.Fatal(err)
			}
			all := []*Scenario{s}
			for _, w := range s.WhatIfs() {
				changed, err := s.WhatIf(w)
				if err != nil {
					t.Errorf("WhatIf(%q): %v", w, err)
					continue
				}
				all = append(all, changed)
			}
			for _, one := range all {
				for _, o := range append([]string{""}, one.Orders()...) {
					if _, err := one.Drill(o); err != nil {
						t.Errorf("Drill(%q): %v", o, err)
					}
				}
			}
		})
	}
}
