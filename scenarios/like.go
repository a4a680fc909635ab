package scenarios

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
	"warmby/sim/heat"
)

// The classes that like may name: plain size classes with round numbers, each
// with where it comes from. "From memory" means a default only, never checked
// against a source: measure your own and override it.

// shelterClass is a class of tent.
type shelterClass struct {
	name                 string
	volume, skin, u      float64 // m3, m2, W/m2K
	airChanges, contents float64 // per hour, kJ/K
	sleeps               int64
	origin               string
}

// Heat lost through one thin skin is 1/(0.13 + 0.04) = 5.9 W/m2K, and with a
// still air gap of 0.18 m2K/W between two skins 2.9: derived from the film
// resistances of ISO 6946, themselves from memory. Sizes, contents (some
// 10 kJ/K for each sleeper's kit) and air changes are from memory.
const (
	singleSkin = 5.9
	doubleSkin = 2.9
	tentOrigin = "heat loss derived from ISO 6946 film resistances; sizes, contents and air changes from memory, defaults only"
)

var shelterClasses = []shelterClass{
	{"two-person single-wall tent", 2.5, 10, singleSkin, 2, 20, 2, tentOrigin},
	{"two-person double-wall tent", 2.5, 10, doubleSkin, 2, 20, 2, tentOrigin},
	{"four-person single-wall tent", 8, 20, singleSkin, 1.5, 40, 4, tentOrigin},
	{"four-person double-wall tent", 8, 20, doubleSkin, 1.5, 40, 4, tentOrigin},
	{"six-person single-wall tent", 15, 29, singleSkin, 1.5, 60, 6, tentOrigin},
	{"six-person double-wall tent", 15, 29, doubleSkin, 1.5, 60, 6, tentOrigin},
	// Volume and skin of the steady tent balance that sim/heat is tested with.
	{"ten-person single-wall tent", 25, 35, singleSkin, 1.5, 100, 10, tentOrigin},
	{"ten-person double-wall tent", 25, 35, doubleSkin, 1.5, 100, 10, tentOrigin},
	{"wall tent", 30, 48, 5.0, 2, 120, 8, "one canvas skin, from memory, a default only"},
	{"casualty shelter", 2, 9, singleSkin, 3, 20, 4, "a bag of thin cloth over a few people, from memory, a default only"},
	{"snow shelter", 6, 18, 1.5, 1, 60, 4, "walls of 30 cm of packed snow at some 0.5 W/mK, derived from a conductivity from memory, a default only"},
}

// ShelterClass returns the shelter that "like" names; ok is false when there is
// no such class.
func ShelterClass(name string) (s sim.Shelter, ok bool) {
	c, ok := classNamed(shelterClasses, func(c shelterClass) string { return c.name }, name)
	return sim.Shelter{Name: c.name, Volume: c.volume, Skin: c.skin, U: c.u, AirChanges: c.airChanges,
		Contents: c.contents * 1000, Sleeps: int(c.sleeps)}, ok
}

// stoveClass is a class of stove.
type stoveClass struct {
	name              string
	power, efficiency float64 // W, share
	fuel              string
	holdsPots         bool
	toPots            float64
	flue              bool
	origin            string
}

var stoveClasses = []stoveClass{
	// 2 to 3 kW, 40 to 60 % with lid and windscreen: from memory.
	{"liquid-fuel burner", 2500, 0.5, "white gas", false, 0, false, "2 to 3 kW and 40 to 60 % from memory, a default only"},
	// Main burner 11,500 Btu/h by a maker's manual, a litre boils in 4 min there, so 41 %.
	{"camp stove burner", 3370, 0.41, "white gas", false, 0, false, "11,500 Btu/h as a maker publishes; efficiency derived from a litre boiling in 4 min"},
	// 424 W into the water in a published hobby test; half taken as efficiency from memory.
	{"alcohol burner", 850, 0.5, "alcohol", false, 0, false, "424 W into the pot in a published hobby test; efficiency from memory"},
	// Some 25,000 Btu/h: from memory.
	{"tent heater", 7300, 0.65, "white gas", true, 0.3, true, "some 25,000 Btu/h, 65 % and 30 % to pots from memory, defaults only"},
	{"wood stove", 6000, 0.55, "wood", true, 0.25, true, "from memory, a default only"},
}

// clothingClass is a class of clothing, in clo.
type clothingClass struct {
	name        string
	march, halt float64
	origin      string
}

var clothingClasses = []clothingClass{
	{"light", 1.2, 2.0, "walking clothes and a warm jacket, from memory, a default only"},
	{winterClothing, 1.6, 3.5, "winter layers and a thick jacket and trousers for the halt, from memory, a default only"},
	{"expedition", 2.0, 4.5, "polar clothing with a down suit for the halt, from memory, a default only"},
}

// ClothingClass returns what "like" names for clothing, in clo; ok is false when
// there is no such class.
func ClothingClass(name string) (march, halt float64, ok bool) {
	c, ok := classNamed(clothingClasses, func(c clothingClass) string { return c.name }, name)
	return c.march, c.halt, ok
}

// winterClothing is the class of clothing of those for whom the file names none.
const winterClothing = "winter"

func shelterNames() []string {
	return namesOfAll(shelterClasses, func(c shelterClass) string { return c.name })
}
func stoveNames() []string {
	return namesOfAll(stoveClasses, func(c stoveClass) string { return c.name })
}
func clothingNames() []string {
	return namesOfAll(clothingClasses, func(c clothingClass) string { return c.name })
}
func fuelNames() []string {
	return namesOfAll(heat.Fuels(), func(f heat.Fuel) string { return f.Name })
}

func namesOfAll[T any](of []T, name func(T) string) []string {
	var names []string
	for _, one := range of {
		names = append(names, name(one))
	}
	return names
}

// classNamed returns the class of a name; ok is false when there is none.
func classNamed[T any](of []T, name func(T) string, wanted string) (class T, ok bool) {
	for _, one := range of {
		if name(one) == wanted {
			return one, true
		}
	}
	return class, false
}

// classShape is the name of a class of kit.
type classShape struct {
	of    string
	names []string
}

func (s classShape) check(r *reader, n *yaml.Node) {
	for _, name := range s.names {
		if n.Kind == yaml.ScalarNode && n.Value == name {
			return
		}
	}
	if n.Kind != yaml.ScalarNode {
		r.failGot(n, "must be a class of "+s.of, "one of "+strings.Join(s.names, ", "))
		return
	}
	r.failNear(n, fmt.Sprintf("unknown class of %s %s", s.of, describe(n)), "", n.Value, s.names)
}
func (s classShape) words() string { return "class of " + s.of }
