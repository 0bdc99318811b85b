/** What one command of the command line is: its words, its arguments, and what it does with the service. */
import { resolve } from "node:path";
import type { Command } from "commander";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import type { Permission } from "../page/write-out.ts";

/** What a command works with. */
export interface Desk {
  /** Asks the service; progress goes to the error output. Throws the failure as a PlanningError. */
  ask<N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>>;
  /** A line on the error output. */
  tell(line: string): void;
}

export interface Outcome {
  /** Exit status 0 or 1. */
  readonly holds: boolean;
  /** What `--json` prints. */
  readonly json: unknown;
  /** What is printed without it. */
  readonly text: string;
}

export interface CliCommand {
  readonly name: string;
  readonly summary: string;
  /** Declares arguments and options; `--json` and `--help` are there already. */
  declare(command: Command): void;
  /** Throws a PlanningError for bad use or bad input: exit status 2. */
  act(desk: Desk, given: readonly string[], options: Readonly<Record<string, unknown>>): Promise<Outcome>;
}

/** Where `--to` says, and whether what stands there may go (`--replace`); null: to the standard output. */
export const placeOf = (
  options: Readonly<Record<string, unknown>>,
  from: string | null,
): (Permission & { readonly path: string }) | null => {
  const to = optionText(options, "to");
  return to === undefined ? null : { path: resolve(to), mayReplace: options["replace"] === true, from };
};

/** An argument that commander has made sure of. */
export const argument = (given: readonly string[], place: number): string => given[place] ?? "";

/** An option's text; undefined: not given. */
export const optionText = (options: Readonly<Record<string, unknown>>, name: string): string | undefined => {
  const value = options[name];
  return typeof value === "string" ? value : undefined;
};
