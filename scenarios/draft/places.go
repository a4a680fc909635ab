package draft

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Place is where a team halts.
type Place struct {
	Name      string  // as people call it: "fells, 66 N"; may be empty
	Latitude  float64 // degrees, north positive
	Longitude float64 // degrees, east positive; NaN where it follows from the clock
	Elevation float64 // m above the sea
}

func (p Place) check() error {
	switch {
	case !(math.Abs(p.Latitude) <= 90):
		return errors.New("latitude must be from -90 to 90 degrees")
	case !math.IsNaN(p.Longitude) && !(math.Abs(p.Longitude) <= 180):
		return errors.New("longitude must be from -180 to 180 degrees")
	}
	return nil
}

// String writes a place as it may be typed.
func (p Place) String() string {
	if p.Name != "" {
		return p.Name
	}
	side := "N"
	if p.Latitude < 0 {
		side = "S"
	}
	text := fmt.Sprintf("%.4g %s", math.Abs(p.Latitude), side)
	if math.IsNaN(p.Longitude) {
		return text
	}
	east := "E"
	if p.Longitude < 0 {
		east = "W"
	}
	return text + fmt.Sprintf(" %.4g %s", math.Abs(p.Longitude), east)
}

// region is a kind of country for who has no coordinates at hand. Heights are
// round numbers from memory; they set where water boils, and no more.
type region struct {
	word string
	Place
}

var regions = []region{
	{"mountains", Place{"mountains, 46 N", 46, math.NaN(), 1800}},
	{"hills", Place{"hills, 54 N", 54, math.NaN(), 500}},
	{"forest", Place{"forest, 62 N", 62, math.NaN(), 250}},
	{"fells", Place{"fells, 66 N", 66, math.NaN(), 450}},
	{"tundra", Place{"tundra, 70 N", 70, math.NaN(), 100}},
	{"ice", Place{"ice, 78 N", 78, math.NaN(), 300}},
	{"southern mountains", Place{"southern mountains, 44 S", -44, math.NaN(), 1500}},
	{"southern ice", Place{"southern ice, 75 S", -75, math.NaN(), 800}},
}

// standardRegion is where somebody halts who does not say.
const standardRegion = 2

// nearest is the region of the latitude that is nearest.
func nearest(latitude float64) region {
	best := regions[0]
	for _, r := range regions {
		if math.Abs(r.Latitude-latitude) < math.Abs(best.Latitude-latitude) {
			best = r
		}
	}
	return best
}

// degrees is a number with the letter of its side before it or behind.
var degrees = regexp.MustCompile(`^(?:([nsew])\s*(\d+(?:\.\d+)?)|([+-]?\d+(?:\.\d+)?)\s*(?:°|deg|degrees)?\s*([nsew]|north|south|east|west)?)\s*°?[\s,;/]*`)

// ReadPlace reads a place: "61.5 9.8", "61.5 N, 9.8 E", "60 N", "fells". Where
// no height is known it is that of the region of the nearest latitude; where no
// longitude is, it follows from the clock of the arrival.
func ReadPlace(text string) (Place, error) {
	t := plain(text)
	for _, r := range regions {
		if t == r.word || t == strings.ToLower(r.Name) {
			return r.Place, nil
		}
	}
	var numbers []float64
	var sides []string
	for rest := t; rest != ""; {
		m := degrees.FindStringSubmatch(rest)
		if m == nil || len(numbers) == 2 {
			return Place{}, fmt.Errorf("that is neither degrees nor one of %s", strings.Join(RegionWords(), ", "))
		}
		v, err := strconv.ParseFloat(m[2]+m[3], 64)
		if err != nil {
			return Place{}, fmt.Errorf("%q is no number of degrees", m[2]+m[3])
		}
		numbers, sides, rest = append(numbers, v), append(sides, m[1]+m[4]), rest[len(m[0]):]
	}
	return placeOf(numbers, sides)
}

// RegionWords lists the kinds of country that may be named.
func RegionWords() (list []string) {
	for _, r := range regions {
		list = append(list, r.word)
	}
	return list
}

// placeOf makes a place of one or two numbers with the letters beside them.
func placeOf(numbers []float64, sides []string) (Place, error) {
	p := Place{Longitude: math.NaN()}
	if len(numbers) == 0 {
		return p, errors.New("that is empty")
	}
	for i, v := range numbers {
		side := sides[i]
		if len(side) > 1 {
			side = side[:1]
		}
		if side == "s" || side == "w" {
			v = -v
		}
		along := side == "e" || side == "w"
		switch {
		case side != "" && along != (i == 1):
			return p, errors.New("latitude comes first (N or S), then longitude (E or W)")
		case i == 0:
			p.Latitude = v
		default:
			p.Longitude = v
		}
	}
	p.Elevation = nearest(p.Latitude).Elevation
	return p, p.check()
}
