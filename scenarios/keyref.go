package scenarios

import (
	"fmt"
	"strings"

	"warmby/sim/heat"
)

// keyReference writes the part of the manual that follows from the
// declarations: every object with its keys, units, classes and fuels. A test
// holds doc.go to it.
func keyReference() string {
	var b strings.Builder
	b.WriteString("# Key reference\n\nEach key with the form of its value, its default and its meaning. \"Needed\" keys\nhave no default.\n")
	for _, o := range objectsOf(fileKeys()) {
		fmt.Fprintf(&b, "\n%s: %s\n\n", upper(o.name), o.say)
		for _, k := range o.keys {
			writeKey(&b, k)
		}
	}
	fmt.Fprintf(&b, "\nIn a change of people, beside the values of a person:\n\n")
	for _, k := range hurtKeys {
		writeKey(&b, k)
	}
	writeUnits(&b)
	writeClasses(&b)
	return b.String()
}

func writeKey(b *strings.Builder, k key) {
	std := "Default: " + k.std
	if k.need {
		std = "Needed"
	}
	fmt.Fprintf(b, "\t%s: %s. %s.\n", k.name, k.is.words(), std)
	for _, line := range wrap(upper(k.say)+".", 72) {
		fmt.Fprintf(b, "\t    %s\n", line)
	}
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// wrap breaks a text into lines of at most wide characters.
func wrap(text string, wide int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case len(line)+1+len(word) > wide:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}

// objectsOf returns an object and all that its values are made of, each once,
// in the order in which a file has them.
func objectsOf(top *object) []*object {
	var list []*object
	seen := map[*object]bool{}
	var visit func(s shape)
	visit = func(s shape) {
		switch s := s.(type) {
		case *object:
			if !seen[s] {
				seen[s] = true
				list = append(list, s)
				for _, k := range s.keys {
					visit(k.is)
				}
			}
		case listShape:
			visit(s.of)
		case namedShape:
			visit(s.of)
		case weatherForm:
			visit(s.anyOf)
		case anyOf:
			for _, one := range []shape{s.scalar, s.list, s.mapping} {
				if one != nil {
					visit(one)
				}
			}
		}
	}
	visit(top)
	return list
}

func writeUnits(b *strings.Builder) {
	b.WriteString("\nUnits. A space before the unit may be left out; °C, °F and the raised 2 and 3\nof W/m2K, kg/m3, m2 and m3 are read as well.\n\n")
	for _, d := range []*dimension{inTime, inTemperature, inSpeed, inLength, inMass, inVolume, inPower, inDensity, inRoom, inArea, inLoss, inHeat, inChanges, inClothing, inShare} {
		fmt.Fprintf(b, "\t%-26s %s\n", strings.TrimPrefix(strings.TrimPrefix(d.is, "an "), "a "), strings.Join(d.names(), ", "))
	}
}

func writeClasses(b *strings.Builder) {
	b.WriteString("\nClasses of shelter, with volume, skin, u, air changes, contents and sleeps:\n\n")
	for _, c := range shelterClasses {
		fmt.Fprintf(b, "\t%-30s %4g m3, %2g m2, %g W/m2K, %g /h, %g kJ/K, %d\n", c.name, c.volume, c.skin, c.u, c.airChanges, c.contents, c.sleeps)
		writeOrigin(b, c.origin)
	}
	b.WriteString("\nClasses of stove, with power, efficiency, fuel, and to pots where one holds pots, and flue where it has one:\n\n")
	for _, c := range stoveClasses {
		pots := ""
		if c.holdsPots {
			pots = fmt.Sprintf(", to pots %.4g %%", 100*c.toPots)
		}
		if c.flue {
			pots += ", flue"
		}
		fmt.Fprintf(b, "\t%-30s %g kW, %.4g %%, %s%s\n", c.name, c.power/1000, 100*c.efficiency, c.fuel, pots)
		writeOrigin(b, c.origin)
	}
	b.WriteString("\nClasses of clothing, with march and halt:\n\n")
	for _, c := range clothingClasses {
		fmt.Fprintf(b, "\t%-30s %g clo, %g clo\n", c.name, c.march, c.halt)
		writeOrigin(b, c.origin)
	}
	b.WriteString("\nFuels, with the heat that a litre or a kilogram gives:\n\n")
	for _, f := range heat.Fuels() {
		per := "L"
		if f.ByMass {
			per = "kg"
		}
		fmt.Fprintf(b, "\t%-30s %.3g MJ/%s\n", f.Name, f.Heat/1e6, per)
		writeOrigin(b, f.Origin)
	}
}

func writeOrigin(b *strings.Builder, origin string) {
	for _, line := range wrap("("+origin+")", 70) {
		fmt.Fprintf(b, "\t      %s\n", line)
	}
}
