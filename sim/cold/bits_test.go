package cold

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"testing"
)

// The bits of the balance and of what is said of bare skin, as every processor must
// give them.
func TestBitsAreTheSameOnEveryProcessor(t *testing.T) {
	const want = 0x677b6411bfafb027
	h := fnv.New64a()
	var b [8]byte
	put := func(v float64) {
		binary.LittleEndian.PutUint64(b[:], math.Float64bits(v))
		h.Write(b[:])
	}
	for i := range 20000 {
		air, wind := -60+float64(i%701)/10, float64(i%191)/10
		put(Balance(Body{M: 58 + float64(i%331)}, Clothing{Clo: 0.3 + float64(i%97)/20}, Ambient{air, air, wind, float64(i%11) / 10}))
		put(WindChill(air, 3.6*wind).X)
		put(FrostbiteTime(air, 3.6*wind).X)
	}
	if got := h.Sum64(); got != want {
		t.Errorf("bits %#x, want %#x", got, uint64(want))
	}
}
