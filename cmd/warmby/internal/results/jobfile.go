package results

import (
	"encoding/json"
	"fmt"
	"strings"

	"warmby/cmd/warmby/internal/ask"
)

// SlurmJob is a script that submits itself: an array, and a merge after it.
func SlurmJob(job *Job, arg, out string, shards int) string {
	if out == "" {
		out = job.Name
	}
	note := ""
	if shards > 1000 {
		note = "# More than 1,000 indexes: the cluster may need a larger MaxArraySize.\n"
	}
	return fmt.Sprintf(`#!/bin/bash
# Plays %[1]s in %[2]d shards on a Slurm cluster and puts them together.
#
#   bash FILE          submits the array, and the merge after it
#   sbatch --array=3 FILE shard    plays shard 3 again
#
# The merge runs whatever became of the shards (afterany): when one is missing
# it says so, with the command that makes it. A shard that is run again goes on
# from its last whole chunk.
%[3]s#SBATCH --job-name=warmby
#SBATCH --cpus-per-task=1
#SBATCH --output=warmby-%%j.log
#SBATCH --requeue
set -euo pipefail

shards=%[2]d
out=%[4]s

case "${1:-submit}" in
submit)
	array=$(sbatch --parsable --array=1-$shards "$0" shard)
	merge=$(sbatch --parsable --dependency=afterany:"${array%%%%;*}" "$0" merge)
	echo "submitted: shards as job $array, merge as job $merge"
	;;
shard)
	%[5]s \
		--workers "${SLURM_CPUS_PER_TASK:-1}" --resume \
		--shard "$SLURM_ARRAY_TASK_ID/$shards" --out "$out-shards/$SLURM_ARRAY_TASK_ID"
	;;
merge)
	warmby merge "$out-shards" --out "$out"
	;;
esac
`, title(job), shards, note, ask.ShellWord(out), job.Here().Command(arg))
}

func title(job *Job) string { return strings.Join(strings.Fields(job.Name), " ") }

// kubernetesManifest takes a title, how many shards, how the ConfigMap is made, how
// many pods at a time, how many may fail, the words of the command, and a mount and
// a volume for the scenario.
const kubernetesManifest = `# Plays %[1]s in %[2]d shards as an indexed job, and puts them together.
#
# THIS MANIFEST WAS NOT RUN where it was printed. Before you apply it, put the
# name of an image that holds warmby in place of IMAGE, and make a volume claim
# called warmby-results that many pods may write to (ReadWriteMany).
%[3]s#
# Apply it, wait for warmby-shards to complete, then set suspend of warmby-merge
# to false:
#   kubectl wait --for=condition=complete --timeout=-1s job/warmby-shards
#   kubectl patch job warmby-merge -p '{"spec":{"suspend":false}}'
# A shard that is run again goes on from its last whole chunk.
apiVersion: batch/v1
kind: Job
metadata:
  name: warmby-shards
spec:
  completionMode: Indexed
  completions: %[2]d
  parallelism: %[4]d
  backoffLimit: %[5]d
  template:
    spec:
      restartPolicy: OnFailure
      containers:
        - name: warmby
          image: IMAGE
          command: [warmby]
          args: %[6]s
          resources: {requests: {cpu: "1", memory: 256Mi}}
          volumeMounts:
            - {name: results, mountPath: /results}%[7]s
      volumes:
        - {name: results, persistentVolumeClaim: {claimName: warmby-results}}%[8]s
---
apiVersion: batch/v1
kind: Job
metadata:
  name: warmby-merge
spec:
  suspend: true
  template:
    spec:
      restartPolicy: OnFailure
      containers:
        - name: warmby
          image: IMAGE
          command: [warmby]
          args: ["merge", "/results/shards", "--out", "/results/whole", "--force"]
          volumeMounts:
            - {name: results, mountPath: /results}
      volumes:
        - {name: results, persistentVolumeClaim: {claimName: warmby-results}}
`

// KubernetesJob is a manifest with an indexed job, and the merge as a second
// one.
func KubernetesJob(job *Job, arg string, shards int) string {
	file, mounted := arg, ""
	if job.FileArg() != job.Name { // not a shipped scenario
		file = "/scenario/" + job.FileArg()
		mounted += fmt.Sprintf(" --from-file=%s=%s", ask.ShellWord(job.FileArg()), ask.ShellWord(arg))
	}
	inside := *job
	if job.Design != "" {
		inside.Design = "/scenario/" + job.Design
		mounted += fmt.Sprintf(" --from-file=%s=%s", ask.ShellWord(job.Design), ask.ShellWord(job.designPath))
	}
	mount := ""
	if mounted != "" {
		mount = "# The scenario or its design comes from a ConfigMap. Make it with:\n#   kubectl create configmap warmby-scenario" + mounted + "\n"
	}
	args := append([]string{"batch"}, inside.words(file)...)
	args = append(args, "--shards", fmt.Sprint(shards), "--workers", "1", "--resume", "--out", "/results/shards/$(JOB_COMPLETION_INDEX)")
	var volumes, mounts string
	if mount != "" {
		volumes = "\n        - {name: scenario, configMap: {name: warmby-scenario}}"
		mounts = "\n            - {name: scenario, mountPath: /scenario}"
	}
	return fmt.Sprintf(kubernetesManifest, title(job), shards, mount, min(shards, 50), max(6, shards), flowList(args), mounts, volumes)
}

// flowList writes words as a YAML list of quoted texts, in which JSON is YAML.
// A "$(" that is not a reference of the manifest's own is doubled.
func flowList(words []string) string {
	var list []string
	for _, w := range words {
		if !strings.HasSuffix(w, "$(JOB_COMPLETION_INDEX)") {
			w = strings.ReplaceAll(w, "$(", "$$(")
		}
		b, _ := json.Marshal(w) // a text can always be written
		list = append(list, string(b))
	}
	return "[" + strings.Join(list, ", ") + "]"
}
