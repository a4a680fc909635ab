// Package thorough says how much tests play.
//
// A plain go test is for every change: it plays few cases and is done in minutes.
// With WARMBY_LONG set, as .ci/run sets it, the same tests play many.
package thorough

import "os"

// Asked reports whether tests are to play many cases.
func Asked() bool { return os.Getenv("WARMBY_LONG") != "" }

// Cases returns how many cases a test plays: few, or many when that is asked for.
func Cases(few, many int) int {
	if Asked() {
		return many
	}
	return few
}
