/** The two hosts, as processes: the desktop's service in a process of its own, and the browser host with the service within it. */
import { browserProgram } from "../suite/programs.ts";
import { type ServiceChild, startService } from "./service-child.ts";

export interface Host {
  readonly host: string;
  /** `node`: another way to start Node, under a limit. */
  readonly start: (node?: string) => ServiceChild;
}

const desktop: Host = { host: "the desktop's service", start: (node) => startService(node) };
const browser: Host = { host: "the browser host", start: (node) => startService(node, browserProgram) };

export const hosts: readonly Host[] = [desktop, browser];

/** One of them each time, in turn: for what is done many times over. */
export const hostInTurn = (n: number): Host => (n % 2 === 0 ? browser : desktop);
