package mistake

import "strings"

// Nearest returns the candidates that a misspelt word may have been meant
// for, best first: those of least edit distance if that is no more than a
// third of the word's length (or 2), else those that it begins.
func Nearest(word string, candidates []string) []string {
	word = strings.ToLower(word)
	best, limit := []string(nil), max(2, len([]rune(word))/3)
	for _, c := range candidates {
		d := distance(word, strings.ToLower(c))
		switch {
		case d > limit:
		case d < limit || best == nil:
			best, limit = []string{c}, d
		default:
			best = append(best, c)
		}
	}
	if best != nil || word == "" {
		return best
	}
	for _, c := range candidates {
		if strings.HasPrefix(strings.ToLower(c), word) {
			best = append(best, c)
		}
	}
	return best
}

// distance returns how many letters must be put in, left out, changed or
// swapped with their neighbour to make b of a.
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, row := []int(nil), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := range x {
		row[0] = i + 1
		for j := range y {
			change := last[j]
			if x[i] != y[j] {
				change++
			}
			row[j+1] = min(change, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, make([]int, len(y)+1)
	}
	return last[len(y)]
}
