package played

import (
	"os"
	"runtime/debug"
	"testing"
)

// The reference engine leaves some 15 KB behind for every drill (see the
// package documentation of its library), all of which the garbage collector
// walks again and again; let it do so less often.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
