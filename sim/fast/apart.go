package fast

import "unsafe"

// line is how many bytes processors fetch at a time: two cache lines of 64.
const line = 128

// apart makes a slice that shares no cache line with another. Small arrays that
// are made one after the other lie side by side in memory; when two workers
// write to the same line each waits for the other.
func apart[T any](n int) []T {
	var t T
	size := max(1, int(unsafe.Sizeof(t)))
	room := (max(1, n)*size + line - 1) / line * line
	return make([]T, n, (room+size-1)/size)
}
