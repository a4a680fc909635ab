package licences_test

import (
	"os/exec"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/licences"
)

// What is compiled in must be named with its version; "go generate" in this
// folder writes the file anew when it is not.
func TestEveryModuleOfTheBinaryIsNamed(t *testing.T) {
	if testing.Short() {
		t.Skip("it asks the go command")
	}
	out, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", "warmby/cmd/warmby").Output()
	if err != nil {
		t.Skipf("no go command to ask: %v", err)
	}
	named, _, _ := strings.Cut(licences.Text, "====")
	seen := 0
	for _, line := range strings.Fields(strings.ReplaceAll(strings.TrimSpace(string(out)), " ", "@")) {
		module := strings.Replace(line, "@", " ", 1)
		path, _, _ := strings.Cut(module, " ")
		if !strings.Contains(named, "  "+module+"\n") || !strings.Contains(licences.Text, "\n"+path+": ") {
			t.Errorf("%s is compiled in and not named, or without its terms", module)
		}
		seen++
	}
	if seen < 20 {
		t.Errorf("go list names %d packages of modules: too few to be all", seen)
	}
}
