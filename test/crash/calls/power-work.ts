/**
 * The program whose writing `power-cut.test.ts` records: it makes a ledger, edits, undoes, closes, opens again, keeps a
 * state and goes back to it. Whenever something was acknowledged, its number goes into a file of its own.
 * `node power.js <folder> <edits>`; prints, as JSON, the edits that the ledger must hold after each number.
 */
import { openSync, writeSync } from "node:fs";
import { join } from "node:path";
import { askEdit, makeSmallLedger } from "../edit-stream.ts";
import { childOf, must, serviceIn } from "./small-service.ts";

const [folder = "", asked = "20"] = process.argv.slice(2);
const path = join(folder, "small.coldstock");
const heard = openSync(join(folder, "heard"), "w");

const states: (readonly number[])[] = [];
let now: readonly number[] = [];
const acknowledged = (edits: readonly number[]): void => {
  now = edits;
  states.push(edits);
  writeSync(heard, `${states.length - 1}\n`);
};

const service = await serviceIn(folder);
const child = childOf(service);
let next = 1;
const edit = async (): Promise<void> => {
  const n = next++;
  const reply = await askEdit(child, n);
  if (reply?.ok !== true) throw new Error(`edit ${n} was refused`);
  acknowledged([...now, n]);
};
const edits = async (count: number): Promise<void> => {
  for (let n = 0; n < count; n += 1) await edit();
};

await makeSmallLedger(child, path);
acknowledged([]);
const many = Number(asked);
await edits(many);
await must(service, "plan.undo", {});
acknowledged(now.slice(0, -1));
await edits(3);
const other = join(folder, "other.coldstock");
// Another ledger is opened: the first is closed, and its log moved into it.
await must(service, "ledger.create", { path: other, programme: "Other" });
await must(service, "ledger.open", { path });
await edits(many);
const { id: copyId } = await must(service, "copies.keep", { name: "Here" });
const here = now;
await edits(4);
const { revision } = await must(service, "copies.look", { copyId });
await must(service, "copies.goBack", { copyId, revision });
acknowledged(here);
await edits(5);
await service.close();
process.stdout.write(JSON.stringify(states));
