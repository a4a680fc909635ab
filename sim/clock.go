package sim

import "fmt"

// Clock writes a time since arrival for people: "1 h 05 min", "12 min 30 s",
// "45 s", "never".
func Clock(t Time) string {
	if t == Never {
		return "never"
	}
	sign := ""
	if t < 0 {
		sign, t = "-", -t
	}
	s := (int64(t) + 500) / 1000
	h, m, s := s/3600, s/60%60, s%60
	switch {
	case h > 0 && s == 0:
		return fmt.Sprintf("%s%d h %02d min", sign, h, m)
	case h > 0:
		return fmt.Sprintf("%s%d h %02d min %02d s", sign, h, m, s)
	case m > 0 && s == 0:
		return fmt.Sprintf("%s%d min", sign, m)
	case m > 0:
		return fmt.Sprintf("%s%d min %02d s", sign, m, s)
	}
	return fmt.Sprintf("%s%d s", sign, s)
}

// ByMinute returns the whole minute by which something has come: the one after
// it, unless it is a whole one to the second, as [Clock] writes it.
func ByMinute(t Time) Time {
	t = (t + Second/2) / Second * Second
	return (t + Minute - 1) / Minute * Minute
}
