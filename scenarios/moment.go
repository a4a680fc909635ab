package scenarios

import "time"

// momentHint is what a moment of a file looks like.
const momentHint = "such as 2027-01-16 13:40 +02:00 (date, time, offset from UTC)"

// momentLayouts are the ways of writing a moment: RFC 3339, and the same as people
// write it, with blanks and without seconds.
var momentLayouts = []string{
	time.RFC3339, "2006-01-02T15:04Z07:00",
	"2006-01-02 15:04:05Z07:00", "2006-01-02 15:04Z07:00",
	"2006-01-02 15:04:05 Z07:00", "2006-01-02 15:04 Z07:00",
}

// momentPattern matches them.
const momentPattern = `^[0-9]{4}-[0-9]{2}-[0-9]{2}[T ][0-9]{2}:[0-9]{2}(:[0-9]{2})? ?(Z|[-+][0-9]{2}:[0-9]{2})$`

// parseMoment reads a moment: a date and time of day with its offset from UTC.
func parseMoment(text string) (t time.Time, err error) {
	for _, layout := range momentLayouts {
		if t, err = time.Parse(layout, text); err == nil {
			return t, nil
		}
	}
	return t, err
}

// lacksOffset reports whether a text would be a moment if it had an offset.
func lacksOffset(text string) bool {
	_, err := parseMoment(text + "Z")
	return err == nil
}
