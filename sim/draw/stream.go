package draw

// Key names a stream within a run: a hash of a name and a purpose.
type Key uint64

// The purposes of streams. A stream is named by the task, person or load and
// one of these; those of day and weather have no other name.
const (
	ForWork        = "work"
	ForMishap      = "mishap"
	ForMishapAdds  = "mishap adds"
	ForArrives     = "arrives"      // a person
	ForLoadArrives = "load arrives" // a load may be called as a person is
	ForDay         = "day"
	ForOwnDay      = "own day" // of a person
	ForWeather     = "weather"
)

// KeyOf returns the key of a stream. Different names or purposes give
// different keys but for an accident of one in 2^64.
func KeyOf(name, purpose string) Key {
	h := mix(uint64(len(name)) + odd)
	for i := range len(name) {
		h = mix(h + uint64(name[i]))
	}
	for i := range len(purpose) {
		h = mix(h + 256 + uint64(purpose[i]))
	}
	return Key(h)
}

// Start is where the streams of one run begin; see [StartOf].
type Start uint64

// StartOf returns where the streams of a run under a seed begin.
func StartOf(seed, run uint64) Start {
	return Start(mix(mix(seed+odd) ^ (run * odd)))
}

// Uniform returns draw n of a stream: one of 2^52 numbers evenly spread
// between 0 and 1, neither of which it ever is.
func (s Start) Uniform(k Key, n int) float64 {
	bits := mix(mix(uint64(s)^uint64(k)) + uint64(n)*odd)
	return (float64(bits>>12) + 0.5) * (1.0 / (1 << 52)) // exact
}

// Uniform01 returns draw n of a stream of a run under a seed, in one step.
func Uniform01(seed, run uint64, k Key, n int) float64 {
	return StartOf(seed, run).Uniform(k, n)
}

// odd is 2^64 divided by the golden ratio, made odd: its multiples are spread
// evenly over 64 bits.
const odd = 0x9e3779b97f4a7c15

// mix is a one-to-one map of 64 bits in which every bit of the input turns
// each bit of the output over with chance one half: twice shift and multiply,
// with the constants that David Stafford found for it (his "variant 13").
func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
