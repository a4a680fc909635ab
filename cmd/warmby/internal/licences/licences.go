// Package licences holds the licences of all that the binary is made of, word
// for word: those of Go itself and of the modules that are compiled in, on any
// system. Most of them ask to be passed on with it.
package licences

import _ "embed"

// Text names every module with its version and gives the files in which it
// states its terms; files that are the same stand once. It is made by the
// program in gather.
//
//go:embed licences.txt
var Text string

//go:generate go run ./gather warmby/cmd/warmby licences.txt
