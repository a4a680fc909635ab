package scenarios

import (
	"os"
	"testing"
)

// readGood reads a scenario of testdata that has nothing wrong with it.
func readGood(t *testing.T, name string) *Scenario {
	t.Helper()
	src, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Read(name, src)
	if err != nil {
		t.Fatalf("Read(%s):\n%v", name, err)
	}
	return s
}

func TestReadsAWholeEvening(t *testing.T) {
	s := readGood(t, "evening.yaml")
	for _, w := range s.WhatIfs() {
		if _, err := s.WhatIf(w); err != nil {
			t.Errorf("WhatIf(%q):\n%v", w, err)
		}
	}
}
