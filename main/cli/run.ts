/** Runs one command line and gives its exit status: 0 holds, 1 does not hold, 2 usage error or bad input. */
import { Command, CommanderError } from "commander";
import product from "../../package.json" with { type: "json" };
import { CAUTION } from "../../app/words/caution.ts";
import type { Input, OperationName, PartialAnswer } from "../../app/contract/contract.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { valueOf } from "../page/door.ts";
import { composeService } from "../service/compose.ts";
import { editsLedger } from "../../app/contract/edits.ts";
import type { Service } from "../service/service.ts";
import { answerShape } from "./answer-schema.ts";
import type { CliCommand, CommandHost, Outcome } from "./cli-command.ts";
import { cliCommands } from "./commands.ts";
import { describeProgram } from "./completion-script.ts";
import { failureWords } from "./failure-words.ts";
import { withIsoInstants } from "./iso-instants.ts";
import { progressLine } from "./progress-line.ts";

/** The terminal as a command sees it; tests pass their own. */
export interface Terminal {
  out(text: string | Uint8Array): void;
  err(text: string): void;
  /** All of the standard input. Throws "invalid input" where it is a keyboard. */
  input(): Buffer;
  /** Whether the error output is a screen. */
  readonly isScreen: boolean;
  /** Stops a long computation (Ctrl+C); the answer stops listening. */
  onInterrupt(listener: () => void): () => void;
}

const HOLDS = 0;
const DOES_NOT_HOLD = 1;
const BAD_USE = 2;
const JOB = "command-line";

/** What went wrong inside the program may have come out of a damaged file: then that is what is said. */
const blameFile = async (service: Service): Promise<void> => {
  const checked = await service.call("ledger.verify", {});
  if (!checked.ok || checked.value.isSound) return;
  throw new PlanningError(
    "not a ledger",
    `The ledger file is damaged. ${checked.value.faults[0] ?? ""} Leave it as it is, and go on with a backup or an exported copy.`,
  );
};

/** An edit without a copy of the day behind it is done all the same, and told of. */
const warnOfCopy = async (service: Service, tell: (line: string) => void): Promise<void> => {
  const kept = await service.call("copies.list", {});
  const why = kept.ok ? kept.value.fault : kept.failure.message;
  if (why !== null) tell(`The ledger was changed without a copy of the day. ${why}`);
};

const hostOf = (service: Service, terminal: Terminal, program: Command): CommandHost => {
  const progress = progressLine(terminal.err, terminal.isScreen);
  const tell = (line: string): void => terminal.err(`${line}\n`);
  let known = "";
  let wordsOf: ((partial: unknown) => string) | null = null;
  service.listen(({ event, payload }) => {
    if (event !== "progress") return;
    if (wordsOf !== null && payload.partial !== undefined) known = wordsOf(payload.partial);
    progress.show(payload.share, known === "" ? payload.words : `${payload.words}: ${known}`);
  });
  return {
    ask: async <N extends OperationName>(name: N, input: Input<N>, soFar?: (partial: PartialAnswer<N>) => string) => {
      known = "";
      wordsOf = soFar === undefined ? null : (partial) => soFar(partial as PartialAnswer<N>);
      try {
        const reply = await service.call(name, input, JOB);
        if (!reply.ok && reply.failure.code === "defect") await blameFile(service);
        if (reply.ok && editsLedger(name)) await warnOfCopy(service, tell);
        return valueOf(reply);
      } finally {
        progress.end();
      }
    },
    tell,
    input: terminal.input,
    commands: () => describeProgram(program),
  };
};

const perform = async (
  command: CliCommand,
  given: readonly string[],
  options: Readonly<Record<string, unknown>>,
  terminal: Terminal,
  program: Command,
): Promise<Outcome> => {
  const log: string[] = [];
  const service = composeService(false, (line) => log.push(line));
  const leave = terminal.onInterrupt(() => void service.call("job.cancel", { jobId: JOB }));
  try {
    return await command.act(hostOf(service, terminal, program), given, options);
  } catch (error) {
    // There is no log but the terminal; a person who only has a damaged file need not read it.
    if (!(error instanceof PlanningError) || error.code === "defect") for (const line of log) terminal.err(`${line}\n`);
    throw error;
  } finally {
    leave();
    await service.close();
  }
};

const failing = (error: unknown, isJson: boolean, terminal: Terminal): number => {
  if (!(error instanceof PlanningError)) throw error;
  const { code, message, field } = error;
  if (isJson) terminal.out(`${JSON.stringify({ failure: { code, message, field } }, null, 2)}\n`);
  terminal.err(`${failureWords(error)}\n`);
  return BAD_USE;
};

/** Only what was asked for: nothing else comes on the standard output. */
const printed = ({ json, text, bytes, isDocument }: Outcome, isJson: boolean): string | Uint8Array => {
  if (bytes !== undefined) return bytes;
  if (!isJson) return `${text}\n`;
  return `${JSON.stringify(isDocument === true ? json : withIsoInstants(json), null, 2)}\n`;
};

const examplesOf = ({ name, examples }: CliCommand): string => {
  const width = Math.max(...examples.map(({ line }) => line.length));
  const lines = examples.map(({ line, does }) => `  coldstock ${line.padEnd(width)}  ${does}`);
  const shape = answerShape(name);
  const json =
    shape.length === 0
      ? []
      : [
          "",
          `With --json (whole schema: coldstock schema ${name}; instants in ms UTC have the same as ISO text beside them):`,
          ...shape,
        ];
  return ["", "Examples:", ...lines, ...json].join("\n");
};

/** The program with all that it takes; `done` hears the exit status. */
const declareProgram = (terminal: Terminal, done: (status: number) => void): Command => {
  const program = new Command("coldstock")
    .description("Plans a reusable lander's campaign from an orbital propellant depot.")
    .version(product.version)
    .addHelpText("after", `\nExit status: 0 holds, 1 does not hold, 2 usage error or bad input.\n\n${CAUTION}`)
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err })
    .exitOverride();
  for (const command of cliCommands) {
    const sub = program.command(command.name).description(command.summary).option("--json", "print JSON");
    sub.exitOverride().configureOutput({ writeOut: terminal.out, writeErr: terminal.err });
    command.declare(sub);
    sub.addHelpText("after", () => examplesOf(command));
    sub.action(async () => {
      const options = sub.opts();
      const isJson = options["json"] === true;
      try {
        const outcome = await perform(command, sub.processedArgs as string[], options, terminal, program);
        terminal.out(printed(outcome, isJson));
        done(outcome.holds ? HOLDS : DOES_NOT_HOLD);
      } catch (error) {
        done(failing(error, isJson, terminal));
      }
    });
  }
  return program;
};

/** `argv` without the program's name. */
export const runCommandLine = async (argv: readonly string[], terminal: Terminal): Promise<number> => {
  let status = HOLDS;
  const program = declareProgram(terminal, (reached) => (status = reached));
  try {
    await program.parseAsync(argv, { from: "user" });
  } catch (error) {
    // Help and version asked for end well; everything else that commander throws is bad use, and it has said so.
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? HOLDS : BAD_USE;
  }
  return status;
};
