package rehearse

import "warmby/sim"

// inLight plays a drill again as if it stayed light, all else equal. It returns
// nil when the dark slows nothing and makes no mishap likelier, or does not come while the drill goes on.
func inLight(tl *sim.Timeline) *sim.Timeline {
	d := tl.Drill
	slows, dark := false, false
	isDark := func(c sim.Condition) bool {
		return c.Kind == sim.Dark && !d.Site.Lights || c.Kind == sim.DarkWithLights && d.Site.Lights
	}
	for i := range d.Tasks {
		for _, s := range d.Tasks[i].Slowed {
			slows = slows || isDark(s.When)
		}
		if m := d.Tasks[i].Mishap; m != nil && m.When != nil {
			slows = slows || isDark(*m.When)
		}
	}
	for _, l := range d.Light {
		dark = dark || l.Dark && l.At <= tl.End
	}
	if !slows || !dark {
		return nil
	}
	light := *d
	light.Light = []sim.Light{{At: 0}}
	return playAgain(&light, tl.Luck)
}
