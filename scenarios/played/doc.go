// Package played checks drills from scenario text to timeline against
// hand-worked and published values.
//
// It has no code of its own: its tests read scenario texts, play them with
// both engines, let the checker walk each timeline, and compare what came out
// with a value from outside: arithmetic on paper, a published benchmark, a
// manual, physics.
//
// # Drills worked by hand
//
// Each file of testdata is one rule of what a scenario means. It is a txtar
// archive: the rule in words, then small scenarios, each a file NAME.yaml
// (without the first two keys, version and title, which the test puts before
// it) followed by one or more expectations whose names end in .want. The
// comment of an expectation shows the working. Its other lines are
//
//	order ORDER                   the drill order; left out, the first
//	what if NAME                  the change that is played; left out, none
//	TASK: CALLED START END WHO    times as 2m30s or 0, "never"; names with commas, "-" for nobody
//	place LOOKOUT N: WHO FROM TO, ..   who stands at place N (from 1) from when to when; "end" is the end of the drill
//	reached MILESTONE: TIME       or never
//	late MILESTONE: TIME          reached after its target, or never
//	stops TEXT                    the drill comes to a stop; what it says then
//	unread TEXT                   the file is refused; what the error says
//
// Every task is listed, but where all that is asked is at what a drill stops.
// The times were worked out from the words of the
// manual and not taken from an engine.
//
// # Data that does not come with the source
//
// The benchmarks are read from a folder "shared" beside the source. Where it
// is absent those tests are skipped, and say so.
package played
