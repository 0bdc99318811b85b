/**
 * Programs of other makers that read what we write, from Debian's packages (.ci/run installs them). A test that lacks its
 * client does not run and says so by name; in continuous integration that is a failure.
 */
import { spawnSync } from "node:child_process";

/** What shows that it is there: a command that ends well. */
const signs = {
  bash: ["bash", "--version"],
  zsh: ["zsh", "--version"],
  fish: ["fish", "--version"],
  gnumeric: ["ssconvert", "--version"],
  qpdf: ["qpdf", "--version"],
  "poppler-utils": ["pdftotext", "-v"],
  sqlite3: ["sqlite3", "--version"],
  slurmctld: ["slurmctld", "-V"],
  slurmd: ["slurmd", "-V"],
  // Without a site of its own no command of Slurm answers.
  "slurm-client": ["sh", "-c", "command -v sbatch"],
  munge: ["munged", "--version"],
  parallel: ["parallel", "--version"],
  "python3-icalendar": ["/usr/bin/python3", "-c", "import icalendar"],
  "python3-jsonschema": ["/usr/bin/python3", "-c", "import jsonschema"],
} as const satisfies Readonly<Record<string, readonly string[]>>;
export type Client = keyof typeof signs;

/** Options of a test that needs these. */
export const client = (...names: readonly Client[]): { readonly skip: boolean } => {
  const missing = names.filter((name) => {
    const [program, ...words] = signs[name];
    return spawnSync(program, words).status !== 0;
  });
  if (missing.length === 0) return { skip: false };
  const words = `not run: ${missing.join(", ")} is not installed (apt-get install ${missing.join(" ")})`;
  // A skipped test is not to be overlooked where everything has to run.
  if (process.env["CI"] === "true") return { skip: false };
  console.warn(words);
  return { skip: true };
};
