package ask

import (
	"fmt"
	"strconv"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
)

// Share reads a share of runs as a flag gives it, "90 %": over 0 and up to 1.
func Share(flag, text string) (float64, error) {
	number, unit, ok := scenarios.Quantity(text)
	share, err := strconv.ParseFloat(number, 64)
	cure := fmt.Sprintf("such as --%s \"90 %%\"", flag)
	if !ok || err != nil || unit != "share" {
		return 0, &mistake.Usage{What: fmt.Sprintf("--%s expects a share of runs, got %q", flag, text), Cure: cure}
	}
	if !(share > 0 && share <= 1) {
		return 0, &mistake.Usage{What: fmt.Sprintf("--%s expects a share over 0 and up to 100 %%, got %q", flag, text), Cure: cure}
	}
	return share, nil
}
