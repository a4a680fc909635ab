// Package batch plays many runs of many drills, in parts that any number of
// workers and machines may share.
//
// A [Plan] is points (varied scenarios) times orders times runs. Its runs are
// cut into chunks of a fixed number ([ChunkRuns]), in a fixed sequence: point
// by point, run by run. [Play] plays the chunks on some workers and hands them
// over in sequence, so that what is made of them does not depend on the number
// of workers, on how the plan was split ([Shard]) or on whether it was
// interrupted in between. The luck of a run depends on seed and run only: every
// order at every point meets the same.
//
// A [Journal] is chunks one after the other, each with a checksum. It can be
// cut off anywhere and gone on with from the last whole chunk ([Reader]), and
// the journals of all shards, one after the other, are that of the whole
// ([Missing]). A [Summary] adds up the runs of one point in memory that does
// not grow with their number. [Until] goes on until an interval is narrow.
//
// Nothing here opens a file or asks what time it is: journals go to an
// io.Writer and come from an io.Reader.
package batch
