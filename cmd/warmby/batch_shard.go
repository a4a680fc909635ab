package main

import (
	"fmt"
	"os"
	"strconv"

	"warmby/sim/batch"
)

// whichShard returns the part of the batch to play: as --shard says, else, of so
// many as --shards says, as a cluster says by its environment, else all of it.
// From names what said so when it was the environment.
func (f *batchFlags) whichShard() (shard batch.Shard, from string, err error) {
	if f.shard != "" {
		shard, err = batch.ParseShard(f.shard)
		if err == nil && f.shards > 0 && f.shards != shard.Of {
			err = fmt.Errorf("--shards says %d", f.shards)
		}
		if err != nil {
			return shard, "", &usageError{fmt.Sprintf("--shard %s: %v", f.shard, err), "the first of three is 1/3, the last 3/3"}
		}
		return shard, "", nil
	}
	if f.shards == 0 {
		return shard, "", nil
	}
	switch inArray() {
	case slurmIndex:
		return f.slurmShard()
	case kubernetesIndex:
		return f.kubernetesShard()
	}
	return shard, "", &usageError{fmt.Sprintf("--shards %d: nothing says which of them this is", f.shards),
		"give --shard I/N, or run it where " + slurmIndex + " or " + kubernetesIndex + " is set"}
}

// The variables by which clusters say which of many jobs one is.
const (
	slurmIndex      = "SLURM_ARRAY_TASK_ID"
	kubernetesIndex = "JOB_COMPLETION_INDEX"
)

// inArray returns that of them which is set, "" for none.
func inArray() string {
	for _, name := range []string{slurmIndex, kubernetesIndex} {
		if os.Getenv(name) != "" {
			return name
		}
	}
	return ""
}

const sayShard = "give --shard I/N"

// slurmShard takes the index from a Slurm array whose indexes follow each
// other. Part of an array, run again, cannot tell how many there were.
func (f *batchFlags) slurmShard() (batch.Shard, string, error) {
	id, err := number("SLURM_ARRAY_TASK_ID")
	if err != nil {
		return batch.Shard{}, "", err
	}
	count, err := number("SLURM_ARRAY_TASK_COUNT")
	if err != nil {
		return batch.Shard{}, "", err
	}
	low, err := number("SLURM_ARRAY_TASK_MIN")
	if err != nil {
		return batch.Shard{}, "", err
	}
	s := batch.Shard{Index: id - low + 1, Of: count}
	switch {
	case f.shards != count:
		return s, "", &usageError{fmt.Sprintf("--shards says %d, SLURM_ARRAY_TASK_COUNT %d", f.shards, count), sayShard}
	case low > 1:
		return s, "", &usageError{fmt.Sprintf("a Slurm array that begins with index %d does not tell how many shards there are", low), sayShard}
	case s.Check() != nil:
		return s, "", &usageError{fmt.Sprintf("SLURM_ARRAY_TASK_ID is %d in an array of %d from %d on: the indexes have gaps", id, count, low), sayShard}
	}
	return s, "SLURM_ARRAY_TASK_ID", nil
}

func (f *batchFlags) kubernetesShard() (batch.Shard, string, error) {
	id, err := number("JOB_COMPLETION_INDEX")
	if err != nil {
		return batch.Shard{}, "", err
	}
	s := batch.Shard{Index: id + 1, Of: f.shards}
	if s.Check() != nil {
		return s, "", &usageError{fmt.Sprintf("JOB_COMPLETION_INDEX is %d of %d shards: it counts from 0", id, f.shards), sayShard}
	}
	return s, "JOB_COMPLETION_INDEX", nil
}

func number(variable string) (int, error) {
	text := os.Getenv(variable)
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > 1_000_000_000 {
		return 0, &usageError{fmt.Sprintf("%s must be a whole number, got %q", variable, text), sayShard}
	}
	return n, nil
}
