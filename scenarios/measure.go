package scenarios

// Measure is what a quantity measures, for readers of other files that write
// quantities as scenarios do.
type Measure int

// The measures, with the unit in which a value is returned.
const (
	Length      Measure = iota // of time: milliseconds
	Temperature                // degrees C
	Speed                      // m/s
	Volume                     // of water or fuel: litres
	Weight                     // kg
	Distance                   // m
)

// ReadMeasure reads a number with a unit as scenario files write it. Why is what
// is wrong, "" when nothing is; hint is a likely cure.
func ReadMeasure(text string, m Measure) (value float64, why, hint string) {
	v, why, hint := parseQuantity(text, [...]*dimension{inTime, inTemperature, inSpeed, inVolume, inMass, inLength}[m])
	if why != "" {
		return 0, why, hint
	}
	return float(v), "", ""
}

// NewProblems returns mistakes of a file in the order in which they stand.
func NewProblems(file string, list []Problem) *Problems {
	p := &Problems{File: file, List: list}
	p.finish()
	return p
}

// NameHint says which known name a wrong one is nearest to, or lists the known
// ones when there are few.
func NameHint(wrong string, known []string) string { return nameHint(wrong, known) }
