package heat

import "warmby/sim"

// Apply returns a shelter with a change made to it. The change must be one
// to that shelter.
func Apply(shelter sim.Shelter, m sim.Make) sim.Shelter {
	set := func(value *float64, to *float64) {
		if to != nil {
			*value = *to
		}
	}
	set(&shelter.Volume, m.Volume)
	set(&shelter.Skin, m.Skin)
	set(&shelter.U, m.U)
	set(&shelter.AirChanges, m.AirChanges)
	set(&shelter.Contents, m.Contents)
	return shelter
}
