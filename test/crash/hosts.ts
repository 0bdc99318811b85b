/** The two hosts, as processes: the desktop's service in a process of its own, and the browser host with the service within it. */
import { browserProgram } from "../suite/programs.ts";
import { type ServiceChild, startService } from "./service-child.ts";

export interface Host {
  readonly host: string;
  /** Whether questions reach the service in the order in which they were asked. */
  readonly isInOrder: boolean;
  /** `node`: another way to start Node, under a limit. */
  readonly start: (node?: string) => ServiceChild;
}

const desktop: Host = { host: "the desktop's service", isInOrder: true, start: (node) => startService(node) };
// Each question is a request of its own over HTTP: of several on their way, one may overtake another.
const browser: Host = {
  host: "the browser host",
  isInOrder: false,
  start: (node) => startService(node, browserProgram),
};

export const hosts: readonly Host[] = [desktop, browser];

/** One of them each time, in turn: for what is done many times over. */
export const hostInTurn = (n: number): Host => (n % 2 === 0 ? browser : desktop);
