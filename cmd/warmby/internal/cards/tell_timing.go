package cards

// feltMoments is how often in a drill it is asked how cold somebody feels.
const feltMoments = 3

// mostStoves is how many kinds of stove there are blanks for.
const mostStoves = 3

// timing is the sheet for the stop-watch.
func (t teller) timing() *Timing {
	s := &Timing{
		Title: t.Say("timing title", "title", t.Title), Subtitle: t.subtitle(),
		Heads: []string{t.Say("drill"), t.Say("date"), t.Say("team"), t.Say("arrived")},
		End:   t.Say("end"), Usual: t.Say("usual"),
		Felt: t.Say("felt"), FeltHeads: []string{t.Say("felt who"), t.Say("felt at"), t.Say("felt how")}, FeltRows: feltMoments,
		Notes: []string{t.Say("timing note"), t.Say("typing note")},
	}
	for _, c := range t.CallOuts {
		s.Calls = append(s.Calls, c.Task)
		s.Usually = append(s.Usually, t.clock(byMinute(c.End)))
	}
	s.Blanks = []string{t.Say("air"), t.Say("wind speed"), t.Say("was dark"), t.Say("learning")}
	if len(t.Stoves) > 0 {
		s.Stoves = t.Stoves[:min(mostStoves, len(t.Stoves))]
		s.StoveHeads = []string{t.Say("fuel before"), t.Say("fuel after"), t.Say("melted")}
	}
	return s
}
