package scenarios

import (
	"math/big"
	"strings"
)

// maxDigits bounds the length of a number, so that exact arithmetic with it
// stays small.
const maxDigits = 24

// leadingNumber splits a text into the decimal number that it begins with and
// what follows. The number is a sign, digits and a decimal point: no exponent,
// no leading zero, no NaN, no infinity. Why says what is wrong when ok is
// false.
func leadingNumber(s string) (value *big.Rat, rest string, why string) {
	i, digits, point := 0, 0, -1
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
	}
	first := i
	for ; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			digits++
			continue
		case c == '.' && point < 0:
			point = i
			continue
		}
		break
	}
	switch low := strings.ToLower(strings.TrimLeft(s, "+-. ")); {
	case strings.HasPrefix(low, "nan"), strings.HasPrefix(low, "inf"):
		return nil, "", "NaN and infinities are not numbers here"
	case digits == 0:
		return nil, "", "does not begin with a number"
	case digits > maxDigits:
		return nil, "", "the number has too many digits"
	case digits > 1 && s[first] == '0' && first+1 < i && s[first+1] != '.':
		return nil, "", "a number has no leading zero"
	case point >= 0 && (point == first || point == i-1):
		return nil, "", "a decimal point needs digits on both sides"
	}
	value, ok := new(big.Rat).SetString(s[:i])
	if !ok {
		return nil, "", "not a number"
	}
	rest = strings.TrimLeft(s[i:], " ")
	if r := s[i:]; r != "" && (r[0] == 'e' || r[0] == 'E' || r[0] == '_' || r[0] == 'x') && len(r) > 1 && (r[1] >= '0' && r[1] <= '9' || r[1] == '+' || r[1] == '-') {
		return nil, "", "write the number as a plain decimal number"
	}
	return value, rest, ""
}

// plainNumber reads a text that is a number and nothing else.
func plainNumber(s string) (*big.Rat, string) {
	value, rest, why := leadingNumber(s)
	if why == "" && rest != "" {
		return nil, "not a plain number"
	}
	return value, why
}

// round returns the nearest whole number, half away from zero.
func round(r *big.Rat) *big.Int {
	twice := new(big.Int).Mul(r.Num(), big.NewInt(2))
	if r.Sign() >= 0 {
		twice.Add(twice, r.Denom())
	} else {
		twice.Sub(twice, r.Denom())
	}
	return twice.Quo(twice, new(big.Int).Mul(r.Denom(), big.NewInt(2)))
}

// float returns the floating-point number nearest to r.
func float(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}
