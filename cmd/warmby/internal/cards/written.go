package cards

import "warmby/cmd/warmby/internal/report"

// written writes a figure for people.
func written(value any) string { return value.(report.Part).Write(report.People) }
