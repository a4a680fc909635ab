package sim

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"strings"
	"sync"
)

//go:embed *.go fast/*.go draw/*.go heat/*.go inside/*.go portable/*.go cold/*.go
var source embed.FS

// Source returns the SHA-256 of the source of what plays a drill, in hexadecimal
// digits: of the engine, its draws, and the accounts of heat and cold, without
// their tests. Two builds without a version that differ in it may play
// differently.
func Source() string { return sourceSum() }

var sourceSum = sync.OnceValue(func() string {
	sum := sha256.New()
	err := fs.WalkDir(source, ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.HasSuffix(path, "_test.go") {
			return err
		}
		data, err := source.ReadFile(path)
		sum.Write([]byte(path))
		sum.Write([]byte{0})
		sum.Write(data)
		sum.Write([]byte{0})
		return err
	})
	if err != nil {
		panic("sim: what is embedded cannot be read: " + err.Error())
	}
	return hex.EncodeToString(sum.Sum(nil))
})
