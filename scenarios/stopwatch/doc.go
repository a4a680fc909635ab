// Package stopwatch reads logs of drills that were timed.
//
// [Read] takes the text of log files and a scenario and gives timed drills
// (package warmby/sim/timed), each beside the drill of the scenario under the
// order and the conditions of that day. Nothing is silently dropped: a row is
// used, or it is a mistake or a remark with its line and column. [Manual] is the
// rest of this text, which "warmby help log" prints.
//
// # What a log is
//
// A log is a CSV file, as spreadsheets write it: a table of rows, one for each
// task that was timed, with these headings in any sequence:
//
//	drill,date,team,task,person,start,end,note
//	1,2027-01-16,red,tramp the floor,Berend + Edda,15:02,15:31,
//	1,2027-01-16,red,pitch the tent,,,16:04,
//	1,2027-01-16,red,light the heater,Aila,16:20,16:38,mishap 9 min
//	1,2027-01-16,red,build the snow wall,,16:30,,unfinished
//
// drill, task and end are needed; the others may be left out. A row with an end
// only is usual: somebody calls out "tent up" and somebody writes the time down.
//
//   - drill: any name; rows of one drill share it.
//   - date: 2027-01-16 or 16.1.2027. Learning and seasons need it.
//   - team: any name.
//   - task: as in the scenario, "unpack ITEM" and milestones too. Capitals do not
//     matter. A task that the scenario does not know is a mistake.
//   - person: one or several, with + or & between them, or a row for each; a plain
//     number is so many people without names. The beginning of a name is enough
//     where only one person begins so. Left out, the crew is as the scenario would
//     have it.
//   - start, end: a clock time such as 15:02 or 15:02:30, or a time since arrival
//     such as "62 min" or "1h02min". Clock times need the arrival. A clock time is
//     its next occurrence after the arrival, so midnight needs no care.
//   - note: "mishap 9 min" (what it added), "mishap" when that is not known, "2
//     mishaps 9 min"; "unfinished" when it had not ended by its end, or by the end of
//     the drill where that is empty; "called off" when the drill was broken off for
//     what went wrong. Notes are parted by a full stop or a bar; everything else in
//     them is left as it is.
//
// Semicolons or tabs instead of commas, and then decimal commas, are read as
// well. Lines that begin with # are skipped. The file is UTF-8. At most 1,000 drills
// are read together, and 300 rows of one task in a drill.
//
// # Conditions
//
// A second table, in the same file or another one, says what it was like, a row
// for each drill. Left out is not known.
//
//	drill,arrival,order,air,wind,dark,indoor,learning,stove,fuel before,fuel after,water melted
//	1,14:55,Shelter first,-21 C,3 m/s,no,no,no,burner,1.8 L,1.35 L,6 L
//
// arrival is a clock time. order is that of the scenario that was followed; left
// out, the scenario's first. dark, indoor and learning (the team was new to it)
// are yes or no. For several stoves there are several rows of a drill.
//
// A third table says how cold people felt, up to three times in a drill: 0
// neutral, -1 slightly cool, -2 cool, -3 cold, -4 very cold (the scale of ISO
// 10551; from memory), or these words.
//
//	drill,person,at,felt
//	1,Caro,15:40,-2
//
// # What becomes of it
//
// "warmby fit" learns lengths of tasks from logs, "warmby review" lays one drill
// beside what was foretold, "warmby season" shows one line a drill. With "--log
// LOG" the commands rehearse, compare and halt take their numbers from a log, and
// tell what is luck from what the log leaves open.
//
// A mishap of which the chance hangs on the weather or light counts for the chance
// that held when work on its task started: by the log or, with ends only, by the drill
// played again; by what the conditions say of the drill.
//
// How much of its heat a stove gives to the room cannot be told from a log. A
// warm-up takes longer when the stove gives less and when the shelter loses more,
// and nothing in the log tells these apart. It says how long warming up took, no
// more; the file's own figures stay.
package stopwatch

import (
	_ "embed"
	"strings"
)

//go:embed doc.go
var source string

// Manual returns what is written above of logs, as plain text.
func Manual() string {
	_, text, _ := strings.Cut(source, "// # What a log is\n")
	text, _, _ = strings.Cut(text, "package stopwatch")
	var out strings.Builder
	out.WriteString("# What a log is\n")
	for line := range strings.Lines(text) {
		line = strings.TrimPrefix(strings.TrimPrefix(line, "//"), " ")
		out.WriteString(strings.Replace(line, "\t", "    ", 1))
	}
	return strings.TrimRight(out.String(), "\n") + "\n"
}
