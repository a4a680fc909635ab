package cold

import (
	"cmp"
	"slices"
	"strings"
)

// brief is a topic with its caution in one line.
type brief struct{ topic, line string }

// briefs are the topics, the most urgent first.
var briefs = []brief{
	{"carbon monoxide", "two openings clear, alarm on; never sleep beside a lit stove without a flue."},
	{"flame in a tent", "stove on a firm base, way out open, somebody with it all the time."},
	{"cold casualty", "handle gently, lying flat; insulate from below, shelter, watch; call for help."},
	{"cold strain", "somebody passes the limit in this plan: relieve sooner, warm people in between."},
	{"felling", "trained people only; all others two tree lengths away."},
	{"ice", "tested by somebody who knows the water; go in pairs with a line."},
	{"pitching in wind", "this wind takes tents: shelter from it first, or pitch when it drops."},
	{"alarm", "alarms have a lowest temperature: read it, keep the alarm warm until it hangs."},
	{"scalds", "pots of hot water tip: a firm base, nobody reaches across, cool water for burns."},
	{"hand line", "a line from tent to tent before dark and drift; nobody goes alone."},
	{"liquid fuel", "fill outdoors, stove cold, no flame near; fuel freezes skin at once."},
	{"cold injury", "look at each other's faces and hands; numb or odd: out of the wind, dry, warm."},
	{"wind chill", "cover faces, work out of the wind, take people in on time."},
	{"bare hands", "thin gloves under mittens; metal and fuel freeze skin on touch."},
	{"fuel gas", "the gas in the file does not boil in this cold: another fuel, or warm bottles."},
	{"melting in the open wind", "wind takes most of the heat of a stove: a screen, or expect far longer."},
	{"no account of cold", "nothing is known about the cold some people take."},
	{"overload", "a load is near its limit: share it, lash it low, brake from behind."},
	{"layers", "warm dry layers on before anybody stands still."},
	{"site and snow", "no slopes that may slide, no trees laden with snow; clear roof and vents."},
	{"what this is", "for planning and training; local rules, makers and qualified people come first."},
}

// Line returns the caution in one line of some 80 characters, for a report that
// says elsewhere where all of it stands.
func (c Caution) Line() string {
	if i := place(c); i < len(briefs) {
		return briefs[i].line
	}
	first, _, _ := strings.Cut(c.Text, ". ")
	return strings.TrimSuffix(first, ".") + "."
}

// place returns where a topic stands among the briefs, their number for one
// that does not.
func place(c Caution) int {
	i := slices.IndexFunc(briefs, func(b brief) bool { return b.topic == c.Topic })
	if i < 0 {
		return len(briefs)
	}
	return i
}

// MostUrgent returns at most n cautions, the most urgent first and each topic
// once. What the tool is stands last and is always among them.
func MostUrgent(all []Caution, n int) []Caution {
	var out []Caution
	for _, c := range all {
		if !slices.ContainsFunc(out, func(o Caution) bool { return o.Topic == c.Topic }) {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b Caution) int { return cmp.Compare(place(a), place(b)) })
	if len(out) > n {
		out = append(out[:n-1], out[len(out)-1])
	}
	return out
}
