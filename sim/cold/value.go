package cold

// Value is a number, or the reason why there is none. A formula outside the
// range for which it was published gives no value rather than a guess.
type Value struct {
	X     float64
	Why   string // why there is no value; "" when X holds
	Under bool   // whether all that is known is that it is no more than X
}

// OK reports whether there is a value.
func (v Value) OK() bool { return v.Why == "" }

func value(x float64) Value           { return Value{X: x} }
func noValue(why string) Value        { return Value{Why: why} }
func clamp(x, lo, hi float64) float64 { return min(max(x, lo), hi) }
