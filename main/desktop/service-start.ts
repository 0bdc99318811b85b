/** Which way the desktop starts the service: Electron's utility process, or a Node child where one is named. */
import type { Child } from "../service/link/child.ts";
import { startNodeChild } from "../service/link/node-child.ts";
import { startUtilityChild } from "./utility-child.ts";

/** `COLDSTOCK_SERVICE_NODE`: a Node executable for the service, where Electron's own is too old for the database module. */
export const serviceStarter =
  (program: string, log: (text: string) => void): (() => Child) =>
  () => {
    const node = process.env["COLDSTOCK_SERVICE_NODE"];
    return node === undefined || node === "" ? startUtilityChild(program, log) : startNodeChild(node, program, log);
  };
