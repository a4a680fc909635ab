package draft

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Arrival is a date and a time of day, with an offset or by the clock of the
// place.
type Arrival struct {
	wall  time.Time // in UTC where it has no offset
	zoned bool      // whether it has one
}

func arrivalAt(day time.Time, hour, minute int) Arrival {
	return Arrival{wall: time.Date(day.Year(), day.Month(), day.Day(), hour, minute, 0, 0, time.UTC)}
}

func tomorrow(now time.Time) time.Time { return now.AddDate(0, 0, 1) }

// String writes it as it may be typed.
func (a Arrival) String() string {
	if a.zoned {
		return a.wall.Format(time.RFC3339)
	}
	return a.wall.Format("2006-01-02 15:04")
}

// The years for which the sun's place is known well enough.
const firstYear, lastYear = 1900, 2100

func (a Arrival) check() error {
	if y := a.wall.Year(); y < firstYear || y > lastYear {
		return errors.New("the year must be from 1900 to 2100")
	}
	return nil
}

// in returns the moment at a longitude: an arrival without an offset is by the
// clock of here, where that can be the clock of the longitude, and else by the
// whole hours that the longitude gives.
func (a Arrival) in(longitude float64, here *time.Location) time.Time {
	if a.zoned {
		return a.wall
	}
	y, m, d := a.wall.Date()
	at := func(l *time.Location) time.Time { return time.Date(y, m, d, a.wall.Hour(), a.wall.Minute(), 0, 0, l) }
	hours := math.Round(longitude / 15)
	if math.IsNaN(longitude) {
		hours = 0
	}
	if here != nil {
		_, offset := at(here).Zone()
		if math.IsNaN(longitude) || math.Abs(float64(offset)-longitude*240) <= 2.5*3600 { // clocks are up to 2.5 h off the sun
			return at(time.FixedZone("", offset))
		}
	}
	return at(time.FixedZone("", int(hours)*3600))
}

var (
	clockOnly = regexp.MustCompile(`^(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm|h)?$`)
	dated     = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2})[t ]+(\d{1,2}[:.]\d{2})$`)
)

// ReadArrival reads a time of arrival: "15:00" and "tomorrow 15:00" are
// tomorrow's, "today 15:00" today's, now being today; "2026-12-05T15:00" has its
// date, and "2026-12-05T15:00+01:00" its offset too.
func ReadArrival(text string, now time.Time) (Arrival, error) {
	for _, layout := range []string{time.RFC3339, "2006-01-02T15:04Z07:00"} {
		if at, err := time.Parse(layout, strings.ToUpper(strings.TrimSpace(text))); err == nil {
			a := Arrival{at, true}
			return a, a.check()
		}
	}
	t, day := plain(text), tomorrow(now)
	if m := dated.FindStringSubmatch(t); m != nil {
		date, err := time.Parse("2006-01-02", m[1])
		if err != nil {
			return Arrival{}, errors.New("there is no such date")
		}
		t, day = m[2], date
	} else if rest, cut := strings.CutPrefix(t, "today "); cut {
		t, day = rest, now
	} else {
		t = strings.TrimPrefix(t, "tomorrow ")
	}
	hour, minute, err := readClock(strings.TrimPrefix(t, "at "))
	if err != nil {
		return Arrival{}, err
	}
	a := arrivalAt(day, hour, minute)
	return a, a.check()
}

// readClock reads a time of day.
func readClock(text string) (hour, minute int, err error) {
	m := clockOnly.FindStringSubmatch(text)
	if m == nil {
		return 0, 0, errors.New("that is no time of day")
	}
	hour, _ = strconv.Atoi(m[1])
	if m[2] != "" {
		minute, _ = strconv.Atoi(m[2])
	}
	half := m[3] == "am" || m[3] == "pm"
	switch {
	case half && (hour < 1 || hour > 12), hour > 23, minute > 59:
		return 0, 0, errors.New("there is no such time of day")
	case m[3] == "pm" && hour < 12:
		hour += 12
	case m[3] == "am" && hour == 12:
		hour = 0
	}
	return hour, minute, nil
}
