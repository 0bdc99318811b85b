/**
 * Where the unit tests put their files: in memory where there is such a place, for what they show of files does not hang
 * on how long a disk takes to confirm a write, and thousands of confirmations cost minutes.
 */
import { accessSync, chmodSync, constants, mkdtempSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const IN_MEMORY = "/dev/shm";
const LEAST_BYTES = 2_000_000_000;

/** Room enough, to be written, and programs may be started from it: containers often give a small one without that. */
const isUsable = (folder: string): boolean => {
  try {
    const { bavail, bsize } = statfsSync(folder);
    if (bavail * bsize < LEAST_BYTES) return false;
    const trial = mkdtempSync(join(folder, "coldstock-trial-"));
    try {
      const program = join(trial, "program");
      writeFileSync(program, "");
      chmodSync(program, 0o700);
      accessSync(program, constants.X_OK);
      return true;
    } finally {
      rmSync(trial, { recursive: true });
    }
  } catch {
    return false;
  }
};

/** A folder in memory, or the machine's own for temporary files. */
export const quickFolder = (): string => (isUsable(IN_MEMORY) ? IN_MEMORY : tmpdir());
