package results

import (
	"strings"
	"testing"
)

func TestClustersSayWhichShard(t *testing.T) {
	for _, c := range []struct {
		name, env, shard string
		shards           int
		want             string
	}{
		{"nothing", "", "", 0, "0/0"},
		{"flag", "", "2/8", 0, "2/8"},
		{"flag over environment", "SLURM_ARRAY_TASK_ID=1 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", "2/8", 0, "2/8"},
		{"Slurm from 0", "SLURM_ARRAY_TASK_ID=0 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=0", "", 4, "1/4 SLURM_ARRAY_TASK_ID"},
		{"Slurm from 1", "SLURM_ARRAY_TASK_ID=4 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", "", 4, "4/4 SLURM_ARRAY_TASK_ID"},
		{"one index run again", "SLURM_ARRAY_TASK_ID=3 SLURM_ARRAY_TASK_COUNT=1 SLURM_ARRAY_TASK_MIN=3", "", 1, "a Slurm array that begins with index 3 does not tell how many shards there are"},
		{"gaps", "SLURM_ARRAY_TASK_ID=7 SLURM_ARRAY_TASK_COUNT=3 SLURM_ARRAY_TASK_MIN=1", "", 3, "SLURM_ARRAY_TASK_ID is 7 in an array of 3 from 1 on: the indexes have gaps"},
		{"no number", "SLURM_ARRAY_TASK_ID=x SLURM_ARRAY_TASK_COUNT=3 SLURM_ARRAY_TASK_MIN=1", "", 3, `SLURM_ARRAY_TASK_ID must be a whole number, got "x"`},
		{"Slurm against flag", "SLURM_ARRAY_TASK_ID=1 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", "", 8, "--shards says 8, SLURM_ARRAY_TASK_COUNT 4"},
		{"Kubernetes", "JOB_COMPLETION_INDEX=0", "", 3, "1/3 JOB_COMPLETION_INDEX"},
		{"Kubernetes, last", "JOB_COMPLETION_INDEX=2", "", 3, "3/3 JOB_COMPLETION_INDEX"},
		{"an array of whole batches", "SLURM_ARRAY_TASK_ID=2 SLURM_ARRAY_TASK_COUNT=4 SLURM_ARRAY_TASK_MIN=1", "", 0, "0/0"},
		{"Kubernetes without a number", "JOB_COMPLETION_INDEX=2", "", 0, "0/0"},
		{"Kubernetes, too far", "JOB_COMPLETION_INDEX=3", "", 3, "JOB_COMPLETION_INDEX is 3 of 3 shards: it counts from 0"},
		{"number only", "", "", 3, "--shards 3: nothing says which of them this is"},
		{"wrong", "", "5/3", 0, "--shard 5/3: there is no shard 5 of 3: they count from 1 to 3"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, name := range []string{"SLURM_ARRAY_TASK_ID", "SLURM_ARRAY_TASK_COUNT", "SLURM_ARRAY_TASK_MIN", "JOB_COMPLETION_INDEX"} {
				t.Setenv(name, "")
			}
			for _, pair := range strings.Fields(c.env) {
				name, value, _ := strings.Cut(pair, "=")
				t.Setenv(name, value)
			}
			shard, from, err := WhichShard(c.shard, c.shards)
			got := strings.TrimSpace(shard.String() + " " + from)
			if err != nil {
				got = err.Error()
			}
			if got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
