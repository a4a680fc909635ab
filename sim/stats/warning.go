package stats

import "fmt"

// FewRuns is how many runs a result needs before it comes without a warning.
const FewRuns = 100

// fewRuns warns of results from few runs; "" when there are enough.
func fewRuns(n int64) string {
	switch {
	case n >= FewRuns:
		return ""
	case n == 1:
		return fmt.Sprintf("one run only: nothing can be said of what is usual; ask for %d or more", FewRuns)
	}
	return fmt.Sprintf("%d runs only: the intervals are wide and rough; ask for %d or more", n, FewRuns)
}
