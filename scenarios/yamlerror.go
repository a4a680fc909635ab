package scenarios

import (
	"errors"
	"io"
	"strings"

	"go.yaml.in/yaml/v4"
)

// errEnd is what a loader says when there is no further document.
var errEnd = io.EOF

// yamlError adds what the YAML parser could not read, in our words where we
// have better ones.
func (d *document) yamlError(err error) {
	line, col, message := 1, 1, "not a scenario"
	var many *yaml.LoadErrors
	var one *yaml.LoadError
	if errors.As(err, &many) && len(many.Errors) > 0 {
		one = many.Errors[0]
	}
	if one != nil || errors.As(err, &one) {
		message = strings.TrimPrefix(one.Message, "yaml: ")
		for _, m := range []yaml.Mark{one.Mark, one.ContextMark} {
			if m.Line > 0 {
				line, col = m.Line, max(1, m.Column)
				break
			}
		}
	} else if err != nil {
		message = err.Error()
	}
	hint := "indent with spaces, write \"key: value\" and close every bracket and quote"
	if strings.Contains(message, "max depth") {
		message, hint = "nested too deeply", "nothing in a scenario lies that deep"
	}
	if strings.HasPrefix(strings.TrimRight(d.line(line), " "), "\t") || strings.Contains(message, "tab") {
		hint = "indent with spaces: YAML allows no tabs there"
	}
	if strings.HasPrefix(message, "unknown anchor") {
		d.add(line, col, "an alias is not allowed", "write the value out here")
		return
	}
	if line > len(d.lines) || line == len(d.lines) && d.line(line) == "" {
		message += " (at the end of the file)"
	}
	d.add(line, col, "cannot be read as YAML: "+message, hint)
}
