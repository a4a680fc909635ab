package cold

import (
	"fmt"
	"strings"

	"warmby/sim"
)

// pitchWind is the wind in m/s at 10 m over which tents are hard to pitch: from
// memory, the beginning of Beaufort 6, in which umbrellas turn.
const pitchWind = 10.8

// strongest returns the strongest wind of all weather cases, m/s at 10 m.
func strongest(d *sim.Drill) (wind float64) {
	for _, w := range d.Weather {
		for _, r := range w.Rows {
			wind = max(wind, r.Wind)
		}
	}
	return wind
}

// pitching names wind in which a tent is hard to pitch.
func pitching(d *sim.Drill) (Caution, bool) {
	wind := strongest(d)
	if len(d.Shelters) == 0 || wind <= pitchWind {
		return Caution{}, false
	}
	c := caution("pitching in wind", fmt.Sprintf("wind up to %.0f m/s", wind),
		"A tent that the wind takes is gone, and with it the night. Anchor it before it is unfolded, keep hands on it all the time, put a wall or the sleds to windward first, "+
			"and go into a snow shelter, a bag or the lee when it cannot be held.",
		"whoever leads on the spot, the tent maker's manual")
	c.worse = wind
	return c, true
}

// handLine goes with two shelters or more.
func handLine(d *sim.Drill) (Caution, bool) {
	if len(d.Shelters) < 2 {
		return Caution{}, false
	}
	return caution("hand line", fmt.Sprintf("%q and %q", d.Shelters[0].Name, d.Shelters[1].Name),
		"In dark and drifting snow people have died between two tents. Put a line from tent to tent and to the latrine before dark, hold on to it, go in pairs, "+
			"and say where you go.",
		"whoever leads on the spot"), true
}

// casualty goes with people who are hurt or casualties.
func casualty(d *sim.Drill) (Caution, bool) {
	var who []string
	for i := range d.People {
		if p := &d.People[i]; p.Casualty || p.Hurt != nil {
			who = append(who, p.Name)
		}
	}
	return caution("cold casualty", strings.Join(who, ", "),
		"Handle a cold casualty gently and keep him lying flat: rough handling, standing up and rubbing can stop a cold heart. Insulate from below as well as above, out of the wind, "+
			"take wet clothes off or wrap them in, warm the trunk and not the limbs, watch breathing, and call for help early. The account of cold says nothing about him.",
		"medical services, mountain rescue"), len(who) > 0
}
