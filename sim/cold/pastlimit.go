package cold

import "warmby/sim"

// PastLimit returns those of an account who pass [HeatLimit], by their places
// in it. Of whom there is no account nothing is told.
func PastLimit(people []Person) (over []int) {
	for i := range people {
		if people[i].Why == "" && people[i].PassedAt != sim.Never {
			over = append(over, i)
		}
	}
	return over
}
