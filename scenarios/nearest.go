package scenarios

import (
	"fmt"
	"strings"
)

// nameHint says which known name a wrong one is nearest to, or lists the
// known ones when there are few.
func nameHint(wrong string, known []string) string {
	if near := nearest(wrong, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	const few = 12
	if len(known) == 0 {
		return ""
	}
	var quoted []string
	for i, k := range known {
		if i == few {
			quoted = append(quoted, "...")
			break
		}
		quoted = append(quoted, fmt.Sprintf("%q", k))
	}
	return "known here: " + strings.Join(quoted, ", ")
}

// nearest returns the known name that takes the fewest changed, lost, added
// or swapped letters to reach, "" when all are far.
func nearest(wrong string, known []string) string {
	const longest = 80
	a := []rune(strings.ToLower(wrong))
	if len(a) > longest {
		return ""
	}
	best, at := max(1, len(a)/3)+1, ""
	for _, k := range known {
		b := []rune(strings.ToLower(k))
		if len(b) > longest || len(b)-len(a) >= best || len(a)-len(b) >= best {
			continue
		}
		if d := editDistance(a, b); d < best {
			best, at = d, k
		}
	}
	return at
}

// editDistance counts changes, losses, additions and swaps of neighbouring
// letters (optimal string alignment).
func editDistance(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
