/** A terminal that remembers what was printed. */
import { runCommandLine } from "../../../main/cli/run.ts";

export interface Printed {
  readonly status: number;
  readonly out: string;
  /** The same before it was taken for text. */
  readonly bytes: Buffer;
  readonly err: string;
}

/** Runs a command line in this process, with this on its standard input. */
export const runWith = async (input: string | Uint8Array, ...argv: readonly string[]): Promise<Printed> => {
  const parts: Buffer[] = [];
  let err = "";
  const status = await runCommandLine(argv, {
    out: (text) => parts.push(Buffer.from(text)),
    err: (text) => (err += text),
    input: () => Buffer.from(input),
    isScreen: false,
    onInterrupt: () => () => undefined,
  });
  const bytes = Buffer.concat(parts);
  return { status, out: bytes.toString(), bytes, err };
};

/** The same with nothing on it. */
export const run = async (...argv: readonly string[]): Promise<Printed> => await runWith("", ...argv);
