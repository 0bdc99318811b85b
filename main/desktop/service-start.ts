/** Which way the desktop starts the service: Electron's utility process, or a Node child where one is named. */
import type { Child } from "../service/link/child.ts";
import { startNodeChild } from "../service/link/node-child.ts";
import { outsideArchive } from "./outside-archive.ts";
import { startUtilityChild } from "./utility-child.ts";

/**
 * `node`, where one is named (`service-node.ts`), runs the service. Such a child is started at this call, before Electron
 * is ready, and gets ready beside it; a utility process cannot be had before. The answer gives the first process, and a fresh one at each further call.
 */
export const serviceStarter = (program: string, node: string | null, log: (text: string) => void): (() => Child) => {
  if (node === null) return () => startUtilityChild(program, log);
  let first: Child | null = startNodeChild(node, outsideArchive(program), log);
  return () => {
    const child = first ?? startNodeChild(node, outsideArchive(program), log);
    first = null;
    return child;
  };
};
