package sim

// nearLimit is the share of a load's limit from which on it is near it.
const nearLimit = 0.9

// NearLimit returns what a load weighs, in kg, and whether that is near its limit
// or over it: nine tenths of it or more. Loads without a limit never are.
func (d *Drill) NearLimit(load int) (weight float64, near bool) {
	for _, item := range d.Items {
		if item.Load == load {
			weight += item.Weight
		}
	}
	limit := d.Loads[load].Limit
	return weight, limit > 0 && weight >= nearLimit*limit
}
