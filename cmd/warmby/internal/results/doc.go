// Package results holds the folder of a batch.
//
// A [Question] is what is asked for; it makes a [Job], which holds all that the
// results depend on and stands at the head of every journal. A [Plan] is a job
// made ready to be played. What is played goes into the journal of a [Folder],
// and [Write] makes the tables, the summary and the data package of one journal
// or, with [FindShards] and [OnePlan], of those of many machines. The bytes
// depend on the job only: not on workers, shards or interruptions.
package results
