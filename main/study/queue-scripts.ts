/** The scripts by which a batch queue computes a study: text alone, nothing is started here. */
import { resolve } from "node:path";

/** How this program is called: the words of the command line before "study". */
export type Calling = readonly string[];

/** A word as a shell takes it, whatever is in it. */
export const quoted = (word: string): string => `'${word.replaceAll("'", `'\\''`)}'`;

const called = (calling: Calling, ...words: readonly string[]): string => [...calling, ...words].map(quoted).join(" ");

const TRIES = `tries=0
while :; do
  COMMAND && exit 0
  status=$?
  tries=$((tries + 1))
  # 2 is bad input: it will be bad the next time, too.
  if [ "$status" -eq 2 ] || [ "$tries" -ge 3 ]; then exit "$status"; fi
  echo "try $tries ended with $status; once more" >&2
  sleep 1
done
`;

const tried = (command: string): string => TRIES.replace("COMMAND", () => command);

/**
 * An array task: the shard that the queue names, with three tries of its own. A merge that waits for success would be
 * cancelled for good by one task that the queue itself tried again, so none does.
 */
export const slurmShards = (folder: string, calling: Calling): string => `#!/bin/sh
#SBATCH --requeue
#SBATCH --open-mode=append
#SBATCH --job-name=study
#SBATCH --output=${resolve(folder)}/log/shard-%a.log
${tried(called(calling, "study", "run", resolve(folder)))}`;

/** Looks at the files and says what is missing: exit status 1 then. */
export const slurmMerge = (folder: string, calling: Calling): string => `#!/bin/sh
#SBATCH --open-mode=append
#SBATCH --job-name=study-merge
#SBATCH --output=${resolve(folder)}/log/merge.log
exec ${called(calling, "study", "merge", resolve(folder))}
`;

/** `hosts`: as GNU parallel takes them; none: this machine. Its own resume is not used: the folder says what is open. */
export const parallelScript = (
  folder: string,
  calling: Calling,
  open: readonly number[],
  hosts: string | null,
): string => {
  const place = resolve(folder);
  const command = `${called(calling, "study", "run", place)} --shard {}`;
  const options = [
    "--retries 3",
    `--joblog ${quoted(`${place}/log/parallel.log`)}`,
    ...(hosts === null ? [] : [`--sshlogin ${quoted(hosts)}`]),
  ].join(" ");
  return `#!/bin/sh
${open.length === 0 ? "" : `parallel ${options} ${quoted(command)} ::: ${open.join(" ")}\n`}exec ${called(calling, "study", "merge", place)}
`;
};
