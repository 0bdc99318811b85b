/** A terminal that remembers what was printed. */
import { runCommandLine } from "../../../main/cli/run.ts";

export interface Printed {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process. */
export const run = async (...argv: readonly string[]): Promise<Printed> => {
  let out = "";
  let err = "";
  const status = await runCommandLine(argv, {
    out: (text) => (out += text),
    err: (text) => (err += text),
    isScreen: false,
    onInterrupt: () => () => undefined,
  });
  return { status, out, err };
};
