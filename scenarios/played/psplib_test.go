package played

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"warmby/sim"
)

const psplib = "../../../shared/psplib"

// The 480 instances of PSPLIB j30 (Kolisch and Sprecher 1997, EJOR 96:205-216)
// as scenarios: resources are tools, jobs tasks that need nobody, and the
// sequence goes by latest finish time, ties by job number. Allocation in
// sequence with overtaking is then the parallel schedule generation scheme
// with the rule LFT, of which a separate program found: 4.393 % above the
// optimum on average, 206 of 480 optimal. The optima are those of j30opt.sm.
func TestPSPLIBComesOutAsTheParallelScheme(t *testing.T) {
	optima := readOptima(t)
	above, optimal, played := 0.0, 0, 0
	for p := 1; p <= 48; p++ {
		for i := 1; i <= 10; i++ {
			name := fmt.Sprintf("j30%d_%d", p, i)
			src, err := os.ReadFile(filepath.Join(psplib, "j30", name+".sm"))
			if err != nil {
				t.Fatal(err)
			}
			d := drill(t, name, readProject(t, string(src)).scenario(name), "")
			tl := usual(t, d)
			got, best := tl.Finish(), sim.Time(optima[[2]int{p, i}])*sim.Minute
			if got%sim.Minute != 0 || got < best {
				t.Errorf("%s: finish %v, better than the optimum %v", name, sim.Clock(got), sim.Clock(best))
			}
			above += 100 * float64(got-best) / float64(best)
			if got == best {
				optimal++
			}
			played++
		}
	}
	if mean := math.Round(1000*above/float64(played)) / 1000; played != 480 || mean != 4.393 || optimal != 206 {
		t.Errorf("%d instances: %.3f %% above the optimum, %d optimal, want 480: 4.393 %%, 206", played, mean, optimal)
	}
}

// project is an instance of PSPLIB; jobs count from 0, the first and last
// take no time.
type project struct {
	length []int
	need   [][]int
	next   [][]int
	there  []int
}

func readProject(t testing.TB, src string) project {
	t.Helper()
	_, body, ok1 := strings.Cut(src, "PRECEDENCE RELATIONS:")
	arcs, body, ok2 := strings.Cut(body, "REQUESTS/DURATIONS:")
	jobs, there, ok3 := strings.Cut(body, "RESOURCEAVAILABILITIES:")
	if !ok1 || !ok2 || !ok3 {
		t.Fatal("not a PSPLIB file")
	}
	var p project
	for _, f := range numbered(arcs) { // job, modes, how many successors, successors
		var next []int
		for _, s := range f[3:] {
			next = append(next, s-1)
		}
		p.next = append(p.next, next)
	}
	for _, f := range numbered(jobs) { // job, mode, duration, requests
		p.length = append(p.length, f[2])
		p.need = append(p.need, f[3:])
	}
	p.there = numbered(there)[0]
	if len(p.length) != 32 || len(p.next) != 32 || len(p.there) != 4 {
		t.Fatalf("%d jobs, %d lists of successors, %d resources, want 32, 32, 4", len(p.length), len(p.next), len(p.there))
	}
	return p
}

// numbered returns the lines that hold nothing but whole numbers.
func numbered(text string) (lines [][]int) {
	for _, line := range strings.Split(text, "\n") {
		var row []int
		for _, f := range strings.Fields(line) {
			n, err := strconv.Atoi(f)
			if err != nil {
				row = nil
				break
			}
			row = append(row, n)
		}
		if len(row) > 0 {
			lines = append(lines, row)
		}
	}
	return lines
}

// latest returns the latest finish of each job without delay of the whole:
// the backward pass of the critical path method. Successors have higher
// numbers.
func (p project) latest() []int {
	early := make([]int, len(p.length))
	for i := range p.length {
		for _, s := range p.next[i] {
			early[s] = max(early[s], early[i]+p.length[i])
		}
	}
	late := make([]int, len(p.length))
	for i := len(late) - 1; i >= 0; i-- {
		late[i] = early[len(early)-1]
		for _, s := range p.next[i] {
			late[i] = min(late[i], late[s]-p.length[s])
		}
	}
	return late
}

// scenario writes the project as a scenario, a period as a minute.
func (p project) scenario(name string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "warmby: 1\ntitle: %s\npeople: [{name: Ann}]\ntools: {", name)
	for r, n := range p.there {
		fmt.Fprintf(&b, "%sR%d: %d", comma(r), r+1, n)
	}
	b.WriteString("}\ntasks:\n")
	for i, n := range p.length {
		fmt.Fprintf(&b, "  job %d: {takes: %d min, crew: 0, tools: {", i+1, n)
		k := 0
		for r, need := range p.need[i] {
			if need > 0 {
				fmt.Fprintf(&b, "%sR%d: %d", comma(k), r+1, need)
				k++
			}
		}
		b.WriteString("}, after: [")
		k = 0
		for before := range i {
			if slices.Contains(p.next[before], i) {
				fmt.Fprintf(&b, "%sjob %d", comma(k), before+1)
				k++
			}
		}
		b.WriteString("]}\n")
	}
	late := p.latest()
	sequence := make([]int, len(late))
	for i := range sequence {
		sequence[i] = i
	}
	slices.SortStableFunc(sequence, func(a, b int) int { return late[a] - late[b] })
	b.WriteString("orders: {lft: {sequence: [")
	for k, i := range sequence {
		fmt.Fprintf(&b, "%sjob %d", comma(k), i+1)
	}
	b.WriteString("]}}\n")
	return b.String()
}

func comma(k int) string {
	if k > 0 {
		return ", "
	}
	return ""
}

func readOptima(t testing.TB) map[[2]int]int {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(psplib, "j30opt.sm"))
	if err != nil {
		t.Skipf("PSPLIB is not here, and not part of the source: %v", err)
	}
	optima := map[[2]int]int{}
	for _, f := range numbered(trimDecimals(string(src))) {
		if len(f) >= 3 {
			optima[[2]int{f[0], f[1]}] = f[2]
		}
	}
	if len(optima) != 480 {
		t.Fatalf("%d optima, want 480", len(optima))
	}
	return optima
}

// trimDecimals leaves out the columns behind the optimum, which hold
// computing times.
func trimDecimals(text string) string {
	var out []string
	for _, line := range strings.Split(text, "\n") {
		if f := strings.Fields(line); len(f) > 3 {
			line = strings.Join(f[:3], " ")
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}
