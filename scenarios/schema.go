package scenarios

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"
)

// schema is a fragment of JSON Schema. The encoder sorts its keys, so that
// the bytes are the same each time.
type schema map[string]any

// Schema returns the JSON Schema (draft 2020-12) of a scenario file, for
// editors. It knows the shape of every value; names, sums and what needs
// arithmetic with units only the reader checks.
func Schema() []byte {
	file := fileKeys()
	top, defs := file.open(), schema{}
	for _, o := range objectsOf(file)[1:] {
		defs[defName(o.name)] = o.open()
	}
	for _, law := range []lawShape{drawn, arrival} {
		defs[law.defName()] = law.open()
	}
	top["$defs"] = defs
	top["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	top["title"] = "warmby scenario"
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(top); err != nil {
		panic("scenarios: schema: " + err.Error()) // only if a declaration is wrong
	}
	return b.Bytes()
}

func (s textShape) schema() schema { return schema{"type": "string", "pattern": `\S`} }
func (s nameShape) schema() schema { return schema{"type": "string", "pattern": `\S`} }
func (s wholeShape) schema() schema {
	return schema{"type": "integer", "minimum": s.low, "maximum": s.high}
}
func (s numberShape) schema() schema {
	low := "minimum"
	if s.over {
		low = "exclusiveMinimum"
	}
	return schema{"type": "number", low: json.Number(s.low), "maximum": json.Number(s.high)}
}
func (yesShape) schema() schema    { return schema{"type": "boolean"} }
func (s wordShape) schema() schema { return schema{"enum": []string(s)} }
func (s classShape) schema() schema {
	return schema{"enum": s.names}
}

// numberPattern is what leadingNumber reads.
const numberPattern = `[-+]?(0|[1-9][0-9]*)(\.[0-9]+)?`

func (s quantityShape) schema() schema {
	one := schema{"type": "string", "pattern": "^" + quantityPattern(s.d) + "$", "examples": []string{s.d.example}}
	if s.word != "" {
		return schema{"anyOf": []schema{{"const": s.word}, one}}
	}
	return one
}

func quantityPattern(d *dimension) string {
	number := numberPattern
	if d.units[0].shift == nil && d != inTemperature {
		number = strings.TrimPrefix(number, "[-+]?")
	}
	if d == inTime {
		part := func(unit string) string { return "(" + strings.TrimPrefix(number, "[-+]?") + ` *` + unit + ` *)` }
		return "(" + part("h") + part("min") + "?" + part("s") + "?|" + part("min") + part("s") + "?|" + part("s") + ")"
	}
	var units []string
	for _, u := range d.units {
		units = append(units, regexp.QuoteMeta(u.name))
	}
	return number + " *(" + strings.Join(units, "|") + ")"
}

// defName is the name of a part of the schema that others refer to.
func defName(name string) string { return strings.ReplaceAll(name, " ", "-") }

func ref(name string) schema { return schema{"$ref": "#/$defs/" + name} }

func (s lawShape) schema() schema  { return ref(s.defName()) }
func (s lawShape) defName() string { return defName("time drawn up to " + s.most) }

// open returns the schema itself, where schema returns a reference to it.
func (s lawShape) open() schema {
	three := schema{"type": "array", "items": s.value().schema(), "minItems": 3, "maxItems": 3}
	forms := []schema{s.value().schema(), three}
	for _, o := range s.objects() {
		forms = append(forms, o.open())
	}
	return schema{"anyOf": forms}
}

func (s fixedList) schema() schema {
	return schema{"type": "array", "items": s.of.schema(), "minItems": s.count, "maxItems": s.count}
}

func (s listShape) schema() schema {
	list := schema{"type": "array", "items": s.of.schema(), "maxItems": s.most}
	if !s.none {
		list["minItems"] = 1
	}
	return schema{"anyOf": []schema{s.of.schema(), list}}
}

func (s namedShape) schema() schema {
	return schema{"type": "object", "additionalProperties": s.of.schema(), "maxProperties": s.most,
		"propertyNames": schema{"pattern": `^\S(.*\S)?$`, "maxLength": maxName}}
}

func (o *object) schema() schema {
	if o.inline {
		return o.open()
	}
	return ref(defName(o.name))
}

// open returns the schema itself, where schema returns a reference to it.
func (o *object) open() schema {
	properties, need := schema{}, []string{}
	for _, k := range o.keys {
		one := k.is.schema()
		text := strings.ToUpper(k.say[:1]) + k.say[1:]
		if k.std != "" {
			text += ". Default: " + k.std
		}
		one["description"] = text + "."
		properties[k.name] = one
		if k.need {
			need = append(need, k.name)
		}
	}
	s := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if len(need) > 0 {
		s["required"] = need
	}
	return s
}

func (s anyOf) schema() schema {
	var forms []schema
	for _, one := range []shape{s.scalar, s.list, s.mapping} {
		if one != nil {
			forms = append(forms, one.schema())
		}
	}
	return schema{"anyOf": forms}
}

func (s crewShape) schema() schema {
	forms := []schema{
		{"type": "integer", "minimum": 0, "maximum": maxPeople},
		{"type": "string", "pattern": `^(0|[1-9][0-9]{0,2})$|^[1-9][0-9]{0,2} *- *[1-9][0-9]{0,2}$`},
	}
	if s.all {
		forms = append(forms, schema{"const": wholeGroup})
	}
	return schema{"anyOf": forms}
}

func (markShape) schema() schema { return namesOf("a task", 500).schema() }

func (helpersShape) schema() schema {
	return schema{"anyOf": []schema{{"type": "integer", "minimum": 0, "maximum": maxPeople}, namesOf("a person", maxPeople).schema()}}
}

func (conditionShape) schema() schema {
	return schema{"type": "string", "pattern": "^(dark|dark with lights|air below " + quantityPattern(inTemperature) +
		"|wind over " + quantityPattern(inSpeed) + "|snow deeper than " + quantityPattern(inLength) + ")$"}
}

func (momentShape) schema() schema {
	return schema{"type": "string", "pattern": momentPattern}
}

func (targetShape) schema() schema {
	return schema{"type": "string", "pattern": `^(dark|([01]?[0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?|` + quantityPattern(inTime) + ")$"}
}

func (s countShape) schema() schema {
	return schema{"anyOf": []schema{{"const": s.word}, {"type": "integer", "minimum": 1, "maximum": s.most}}}
}

// anything is a value that is checked elsewhere: the changes of a what-if,
// once they are merged into the scenario.
type anything struct{}

func (anything) check(*reader, *yaml.Node) {}
func (anything) schema() schema            { return schema{} }
func (anything) words() string             { return "changes" }

// number reads a checked whole number.
func (r *reader) number(n *yaml.Node) int {
	v, _ := strconv.Atoi(r.values[n].RatString())
	return v
}
