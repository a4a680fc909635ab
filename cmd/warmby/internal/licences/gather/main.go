// Gather writes the licences of all modules that a package is compiled from,
// on any of the systems below, into one file:
//
//	go run ./gather PACKAGE FILE
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

var systems = []string{"linux/amd64", "darwin/arm64", "windows/amd64", "freebsd/amd64", "js/wasm"}

// terms are the names of files in which modules state them; notes that lead
// elsewhere (LICENSE-link) are not among them.
var terms = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|ftl|gpl)[-.\w]*$`)

// folders are those in which modules keep the terms of what they took over.
var folders = regexp.MustCompile(`(?i)^(third_party_)?licen[cs]es$`)

type module struct {
	Path, Version, Dir string
	Main               bool
}

func (m module) String() string { return strings.TrimSpace(m.Path + " " + m.Version) }

func main() {
	log.SetFlags(0)
	if len(os.Args) != 3 {
		log.Fatal("usage: gather PACKAGE FILE")
	}
	text, err := gather(os.Args[1])
	if err == nil {
		err = os.WriteFile(os.Args[2], text, 0o644)
	}
	if err != nil {
		log.Fatal(err)
	}
}

func gather(pkg string) ([]byte, error) {
	modules, err := compiledIn(pkg)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	b.WriteString("LICENCES\n\nWhat the binary contains, and the terms of each.\n\n")
	for _, m := range modules {
		fmt.Fprintf(&b, "  %v\n", m)
	}
	texts, holders := map[string][]string{}, []string{}
	for _, m := range modules {
		files, err := termsIn(m.Dir)
		if err != nil {
			return nil, err
		}
		if len(files) == 0 {
			return nil, fmt.Errorf("%v states no terms in %s", m, m.Dir)
		}
		for _, f := range files {
			data, err := os.ReadFile(filepath.Join(m.Dir, f))
			if err != nil {
				return nil, err
			}
			text := tidy(data)
			if texts[text] == nil {
				holders = append(holders, text)
			}
			texts[text] = append(texts[text], m.Path+": "+filepath.ToSlash(f))
		}
	}
	for _, text := range holders {
		fmt.Fprintf(&b, "\n%s\n%s\n\n%s\n", strings.Repeat("=", 80), strings.Join(texts[text], "\n"), text)
	}
	return b.Bytes(), nil
}

// tidy makes line ends those of this file, and takes form feeds away.
func tidy(data []byte) string {
	text := strings.NewReplacer("\r\n", "\n", "\f", "", "\ufeff", "").Replace(string(data))
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " \t")
	}
	return strings.Trim(strings.Join(lines, "\n"), "\n")
}

// compiledIn lists this module, Go, and all others that the package needs.
func compiledIn(pkg string) ([]module, error) {
	seen := map[string]module{}
	for _, system := range systems {
		if err := addModules(seen, pkg, system); err != nil {
			return nil, err
		}
	}
	var list []module
	for _, m := range seen {
		list = append(list, m)
	}
	rank := func(m module) string { return map[bool]string{true: "0", false: "1"}[m.Main] + m.Path }
	slices.SortFunc(list, func(a, b module) int { return strings.Compare(rank(a), rank(b)) })
	root, err := exec.Command("go", "env", "GOROOT").Output()
	return slices.Insert(list, 1, module{Path: "go", Dir: strings.TrimSpace(string(root))}), err
}

func addModules(seen map[string]module, pkg, system string) error {
	os, arch, _ := strings.Cut(system, "/")
	cmd := exec.Command("go", "list", "-deps", "-json=Module", pkg)
	cmd.Env = append(cmd.Environ(), "GOOS="+os, "GOARCH="+arch, "CGO_ENABLED=0")
	out, err := cmd.Output()
	if err != nil {
		return fmt.Errorf("go list for %s: %w", system, err)
	}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p struct{ Module *module }
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
		if p.Module != nil {
			seen[p.Module.Path] = *p.Module
		}
	}
}

// termsIn returns the files in a module's folder that state its terms.
func termsIn(dir string) (files []string, err error) {
	entries, err := os.ReadDir(dir)
	for _, entry := range entries {
		name := entry.Name()
		switch {
		case entry.IsDir() && folders.MatchString(name):
			err = errors.Join(err, fs.WalkDir(os.DirFS(dir), name, func(path string, d fs.DirEntry, err error) error {
				if err == nil && !d.IsDir() {
					files = append(files, path)
				}
				return err
			}))
		case !entry.IsDir() && terms.MatchString(name) && !strings.Contains(name, "link"):
			files = append(files, name)
		}
	}
	return files, err
}
