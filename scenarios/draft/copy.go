package draft

import (
	"bytes"
	"fmt"

	"warmby/scenarios"
)

// Copy returns a scenario file as it is, with the editor's first line and where
// it comes from on top, and another title where one is given.
func Copy(text []byte, from, title, schema string) ([]byte, error) {
	if title != "" {
		changed, _, err := scenarios.Rewrite(from, text, []scenarios.Edit{{Path: []string{"title"}, Value: quoted(title), Comment: "a copy"}})
		if err != nil {
			return nil, err
		}
		text = changed
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "# yaml-language-server: $schema=%s\n# A copy of %s, made by \"warmby new --from\": change what is different for you.\n#\n", schema, from)
	b.Write(text)
	return b.Bytes(), nil
}
