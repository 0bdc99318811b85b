/** An older Node is refused with a sentence, before the database module can end it without one. */
import { expect, it } from "vitest";
import { nodeRefusal } from "../../../main/cli/node-version.ts";

it.each(["22.0.0", "24.9.0", "100.0.0"])("Node %s will do", (version) => expect(nodeRefusal(version)).toBeNull());

it.each(["20.20.2", "18.0.0", "9.11.2"])("Node %s is told what to do", (version) =>
  expect(nodeRefusal(version)).toMatch(/^Coldstock needs Node 22 or newer, and this is Node .*Install a newer Node/),
);
