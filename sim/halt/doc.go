// Package halt works out how late a team may halt: the latest arrival at which
// a milestone is still in time, or all is well, often enough.
//
// The caller lays the same drill on several arrivals, rising. [Play] plays them
// under the same luck, or [PlayUsual] each once with usual values; an [Answer]
// holds what came of it. [LatestOfAll] judges several cases together.
// [Improve] looks for an order under which one may halt later.
package halt
