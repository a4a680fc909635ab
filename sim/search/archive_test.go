package search

import (
	"slices"
	"testing"
)

// What is kept of a front that is too long reaches from one end to the other, in
// steps that differ by one at most.
func TestALongFrontIsKeptEvenlySpread(t *testing.T) {
	for _, c := range []struct {
		front, most int
		want        []int
	}{
		{4, 4, []int{0, 1, 2, 3}},
		{5, 2, []int{0, 4}},
		{10, 4, []int{0, 3, 6, 9}},
		{11, 4, []int{0, 3, 6, 10}},
		{100, 5, []int{0, 24, 49, 74, 99}},
	} {
		var front []*candidate
		for k := range c.front { // not in sequence; later in the second aim as it is sooner in the first
			at := float64((7*k + 3) % c.front)
			front = append(front, &candidate{vector: []float64{at, -at}})
		}
		var got []int
		for _, one := range spaced(front, c.most) {
			got = append(got, int(one.vector[0]))
		}
		if slices.Sort(got); !slices.Equal(got, c.want) {
			t.Errorf("%d of %d: kept %v, want %v", c.most, c.front, got, c.want)
		}
	}
}
