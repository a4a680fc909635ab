package cold

import (
	"fmt"
	"math"

	"warmby/sim"
	"warmby/sim/heat"
)

// staleAir is the share of carbon dioxide in the air from which on it is said. From
// memory: the usual limit of a working day.
const staleAir = 0.005

// stale says to how much carbon dioxide a stove without a flue leads that keeps a
// shelter warm, " .." with a blank before it; "" where it is less than [staleAir],
// or fuel and cold are not known.
func stale(d *sim.Drill) string {
	worst, text := staleAir, ""
	air, known := coldest(d)
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Kind != sim.Warm || d.Stoves[t.Warm.Stove].Flue || !known {
			continue
		}
		stove := &d.Stoves[t.Warm.Stove]
		for _, s := range becomes(d, t.Warm.Shelter) {
			in := heat.Terms{Shelter: s, Outside: air, People: heat.PersonPower * float64(t.Warm.People)}
			power := min(in.Needs(t.Warm.To), stove.Power)
			share := heat.CarbonDioxide(stove.Fuel, power, s, t.Warm.To, d.Site.Elevation)
			if share <= worst {
				continue
			}
			worst = share
			much := fmt.Sprintf("to %.1f %% carbon dioxide in the air", 100*share)
			if math.IsInf(share, 1) || share > 0.1 {
				much = "to more carbon dioxide than anybody can breathe"
			}
			text = fmt.Sprintf(" %q has no flue: keeping %q at %.0f C in %.0f C outside, with %.1f air changes an hour, it leads %s, of which 0.5 %% is the usual limit of a working day; open the vents further.",
				stove.Name, s.Name, t.Warm.To, air, s.AirChanges, much)
		}
	}
	return text
}

// becomes returns a shelter as it stands in the file and as it is when all tasks
// have made of it what they make.
func becomes(d *sim.Drill, shelter int) []sim.Shelter {
	s := d.Shelters[shelter]
	list := []sim.Shelter{s}
	for i := range d.Tasks {
		for _, m := range d.Tasks[i].Makes {
			if m.Shelter == shelter {
				s = heat.Apply(s, m)
			}
		}
	}
	return append(list, s)
}

// alarm reminds that alarms have a lowest temperature.
func alarm(d *sim.Drill) (Caution, bool) {
	air, known := coldest(d)
	because := stoveInside(d)
	if because == "" || !known || air >= 0 {
		return Caution{}, false
	}
	c := caution("alarm", fmt.Sprintf("%s, in air of %.0f C", because, air),
		"A carbon monoxide alarm has a lowest temperature, for many 0 or -10 C (from memory): below it, it may say nothing. Read its maker's figure, "+
			"carry it warm until it hangs, and test it there.",
		"the alarm's maker, fire services")
	c.worse = -air
	return c, true
}

// fuelGas names a gas that does not boil in the cold of the file.
func fuelGas(d *sim.Drill) (Caution, bool) {
	air, known := coldest(d)
	for i := range d.Stoves {
		s := &d.Stoves[i]
		if f, ok := heat.FuelNamed(s.Fuel); ok && f.Gas && known && air < f.BoilsAt {
			c := caution("fuel gas", fmt.Sprintf("%q burns %s, which boils at %.1f C; air down to %.0f C", s.Name, s.Fuel, f.BoilsAt, air),
				"Below that the bottle gives hardly any gas, and a stove that ran in the warm goes out. Take a gas that boils in more cold, a liquid fuel, or warm the bottle "+
					"under the clothes; never over a flame.",
				"the makers of stove and bottle")
			c.worse = -air
			return c, true
		}
	}
	return Caution{}, false
}

// meltWind is the wind in m/s, as a spot lets it through, from which on a stove in
// the open without a screen is named. Weak: hobby tests tell of no boil at 4 m/s.
const meltWind = 4

// meltInTheWind names a melt in the open wind that nothing slows.
func meltInTheWind(d *sim.Drill) (Caution, bool) {
	wind := strongest(d)
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Kind != sim.Melt || len(t.Slowed) > 0 || d.Spots[t.Spot].In >= 0 {
			continue
		}
		if at := wind * (1 - clamp(d.Spots[t.Spot].Sheltered, 0, 1)); at > meltWind {
			c := caution("melting in the open wind", fmt.Sprintf("%q in up to %.0f m/s", t.Name, at),
				"Hobby tests tell of three times the fuel without a windscreen, and of no boil in 4 m/s. Build a screen, but never around the tank of a stove; "+
					"or say with `slowed` what the wind takes.",
				"the stove maker's manual")
			c.worse = at
			return c, true
		}
	}
	return Caution{}, false
}

// scalds goes with hot water.
func scalds(d *sim.Drill) (Caution, bool) {
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Kind == sim.Melt && (t.Melt.Boil || t.Melt.To >= 50) {
			return caution("scalds", fmt.Sprintf("%q", t.Name),
				"A pot that tips in a tent scalds whoever kneels there, and wet clothes cool them afterwards. Pots stand on a firm base, one person handles them, nobody reaches across, "+
					"bottles are filled outside the sleeping place. Burns: cool, not cold, water for 20 min, keep the rest of the person warm.",
				"medical services, first aid courses"), true
		}
	}
	return Caution{}, false
}
