package ask

// How much may be asked for.
const (
	// MostEvaluations bounds a search to about a day.
	MostEvaluations = 1_000_000_000
	// MostMoments bounds the moments that are kept in memory, 8 bytes each.
	MostMoments = 100_000_000
	// MostRuns is how many runs of one drill may be asked for: its moments are all
	// kept in memory.
	MostRuns = 1_000_000
)
