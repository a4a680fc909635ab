package results

import (
	"fmt"
	"os"
	"strconv"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/sim/batch"
)

// WhichShard returns the part of the batch to play: as --shard says, else, of so
// many as --shards says, as a cluster says by its environment, else all of it.
// From names what said so when it was the environment.
func WhichShard(asked string, shards int) (shard batch.Shard, from string, err error) {
	if asked != "" {
		shard, err = batch.ParseShard(asked)
		if err == nil && shards > 0 && shards != shard.Of {
			err = fmt.Errorf("--shards says %d", shards)
		}
		if err != nil {
			return shard, "", &mistake.Usage{What: fmt.Sprintf("--shard %s: %v", asked, err), Cure: "the first of three is 1/3, the last 3/3"}
		}
		return shard, "", nil
	}
	if shards == 0 {
		return shard, "", nil
	}
	switch InArray() {
	case slurmIndex:
		return slurmShard(shards)
	case kubernetesIndex:
		return kubernetesShard(shards)
	}
	return shard, "", &mistake.Usage{What: fmt.Sprintf("--shards %d: nothing says which of them this is", shards), Cure: "give --shard I/N, or run it where " + slurmIndex + " or " + kubernetesIndex + " is set"}

}

// The variables by which clusters say which of many jobs one is.
const (
	slurmIndex      = "SLURM_ARRAY_TASK_ID"
	kubernetesIndex = "JOB_COMPLETION_INDEX"
)

// InArray returns that of them which is set, "" for none.
func InArray() string {
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
func slurmShard(shards int) (batch.Shard, string, error) {
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
	case shards != count:
		return s, "", &mistake.Usage{What: fmt.Sprintf("--shards says %d, SLURM_ARRAY_TASK_COUNT %d", shards, count), Cure: sayShard}
	case low > 1:
		return s, "", &mistake.Usage{What: fmt.Sprintf("a Slurm array that begins with index %d does not tell how many shards there are", low), Cure: sayShard}
	case s.Check() != nil:
		return s, "", &mistake.Usage{What: fmt.Sprintf("SLURM_ARRAY_TASK_ID is %d in an array of %d from %d on: the indexes have gaps", id, count, low), Cure: sayShard}
	}
	return s, "SLURM_ARRAY_TASK_ID", nil
}

func kubernetesShard(shards int) (batch.Shard, string, error) {
	id, err := number("JOB_COMPLETION_INDEX")
	if err != nil {
		return batch.Shard{}, "", err
	}
	s := batch.Shard{Index: id + 1, Of: shards}
	if s.Check() != nil {
		return s, "", &mistake.Usage{What: fmt.Sprintf("JOB_COMPLETION_INDEX is %d of %d shards: it counts from 0", id, shards), Cure: sayShard}
	}
	return s, "JOB_COMPLETION_INDEX", nil
}

func number(variable string) (int, error) {
	text := os.Getenv(variable)
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > 1_000_000_000 {
		return 0, &mistake.Usage{What: fmt.Sprintf("%s must be a whole number, got %q", variable, text), Cure: sayShard}
	}
	return n, nil
}
