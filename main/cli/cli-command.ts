/** What one command of the command line is: its words, its arguments, and what it does with the service. */
import { resolve } from "node:path";
import type { Command } from "commander";
import type { Input, OperationName, Output, PartialAnswer } from "../../app/contract/contract.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import type { Permission } from "../page/write-out.ts";
import type { DescribedCommand } from "./completion-script.ts";

/** What a command works with. */
export interface CommandHost {
  /**
   * Asks the service; progress goes to the error output, with what is known so far where there are words for it. Throws the
   * failure as a PlanningError.
   */
  ask<N extends OperationName>(
    name: N,
    input: Input<N>,
    soFar?: (partial: PartialAnswer<N>) => string,
  ): Promise<Output<N>>;
  /** A line on the error output. */
  tell(line: string): void;
  /** All of the standard input, for a file named "-". Throws "invalid input" where it is a keyboard. */
  input(): Buffer;
  /** What the commands take. */
  commands(): readonly DescribedCommand[];
}

/**
 * What a command gives. The type of `json` is published as a schema (answers.schema.json): commands therefore say
 * `satisfies CliCommand`, and the test that writes the schema takes it from what `act` gives.
 */
export interface Outcome {
  /** Exit status 0 or 1. */
  readonly holds: boolean;
  /** What `--json` prints; beside every instant in ms the same as ISO text is added. */
  readonly json: unknown;
  /** What is printed without it. */
  readonly text: string;
  /** Instead of the text: these bytes as they are, and with `--json` nothing else (a file named "-"). */
  readonly bytes?: Uint8Array;
  /** The JSON is a document of a form of its own: nothing is added to it. */
  readonly isDocument?: boolean;
}

/** What `export` and `schema` print with `--json` besides the word that a file was written: a document of its own form. */
export type OwnDocument = Readonly<Record<string, unknown>>;

export interface CliExample {
  /** Without the program's name: "check tarn.coldstock". */
  readonly line: string;
  /** What it does, in a few words. */
  readonly does: string;
}

export interface CliCommand {
  readonly name: string;
  readonly summary: string;
  /** Printed by `--help`; a test runs each, in order, beside the demonstration tarn.coldstock. */
  readonly examples: readonly CliExample[];
  /** Declares arguments and options; `--json` and `--help` are there already. */
  declare(command: Command): void;
  /** Throws a PlanningError for bad use or bad input: exit status 2. */
  act(host: CommandHost, given: readonly string[], options: Readonly<Record<string, unknown>>): Promise<Outcome>;
}

/** Stands for the standard input where a file is read, and for the standard output where one is written. */
export const STREAM = "-";

/** Where `--to` says, and whether what stands there may go (`--replace`); null or "-": to the standard output. */
export const placeOf = (
  options: Readonly<Record<string, unknown>>,
  from: string | null,
): (Permission & { readonly path: string }) | null => {
  const to = optionText(options, "to");
  return to === undefined || to === STREAM
    ? null
    : { path: resolve(to), mayReplace: options["replace"] === true, from };
};

/** An argument that commander has made sure of. */
export const argument = (given: readonly string[], index: number): string => given[index] ?? "";

/** The path of the ledger, the argument at an index. Throws "invalid input" for "-": a ledger is a file that stays. */
export const ledgerPath = (given: readonly string[], index = 0): string => {
  const text = argument(given, index);
  if (text === STREAM)
    throw new PlanningError(
      "invalid input",
      "A ledger is a file on a disk: it cannot come from the standard input. A document can: coldstock import - made.coldstock",
      "ledger",
    );
  return resolve(text);
};

/** An option's text; undefined: not given. */
export const optionText = (options: Readonly<Record<string, unknown>>, name: string): string | undefined => {
  const value = options[name];
  return typeof value === "string" ? value : undefined;
};
