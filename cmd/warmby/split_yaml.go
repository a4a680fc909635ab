package main

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"warmby/sim"
)

// orderYAML writes the groups of a drill as an order of a scenario file.
func orderYAML(name string, d *sim.Drill, width int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  %s:\n", name)
	indent := "    "
	if len(d.Groups) > 1 {
		b.WriteString("    groups:\n")
		indent = "        "
	}
	for _, group := range d.Groups {
		if len(d.Groups) > 1 {
			fmt.Fprintf(&b, "      %s:\n", group.Name)
			var people []string
			for _, p := range group.People {
				people = append(people, d.People[p].Name)
			}
			b.WriteString(flowYAML("people", people, width, indent))
		}
		var tasks []string
		for _, t := range group.Sequence[group.Lead:] {
			tasks = append(tasks, d.Tasks[t].Name)
		}
		b.WriteString(flowYAML("sequence", tasks, width, indent))
		if len(d.Groups) > 1 && len(group.Then) == len(d.Groups)-1 {
			fmt.Fprintf(&b, "%sthen: all\n", indent)
		}
	}
	return b.String()
}

// flowYAML writes a list in brackets, over as many lines as it takes.
func flowYAML(key string, names []string, width int, indent string) string {
	var b strings.Builder
	line := indent + key + ": ["
	for i, name := range names {
		word := yamlWord(name)
		if i+1 < len(names) {
			word += ","
		}
		if len(line)+1+len(word) > width && strings.TrimSpace(line) != "" {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = indent + "  "
		}
		if last := line[len(line)-1]; last != '[' && last != ' ' {
			line += " "
		}
		line += word
	}
	b.WriteString(line + "]\n")
	return b.String()
}

var plainYAML = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9 _-]*[A-Za-z0-9]$|^[A-Za-z]$`)

// yamlWord quotes a name when YAML would take it for something else.
func yamlWord(name string) string {
	special := []string{"true", "false", "null", "yes", "no", "on", "off", "y", "n"}
	if plainYAML.MatchString(name) && !slices.Contains(special, strings.ToLower(name)) {
		return name
	}
	return strconv.Quote(name)
}
