/** The ledger as a document, handed to the host to write. */
import type { Session } from "../state/session.ts";

/** "South Rim Survey" → "south-rim-survey.json". */
const fileNameFor = (programme: string): string => {
  const stem = programme
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  return `${stem === "" ? "ledger" : stem}.json`;
};

export const exportLedger = async (session: Session): Promise<void> => {
  const document = await session.ask("ledger.export", {});
  if (document === null) return;
  const text = `${JSON.stringify(document, null, 2)}\n`;
  const reply = await session.client.host.saveText("json", fileNameFor(document.programme), text);
  if (!reply.ok) session.fail(reply.failure);
  else if (reply.value !== null) session.tell("information", `The ledger was written to ${reply.value}.`);
};

/** The whole ledger with its history as a new file; the open one stays open. */
export const saveCopy = async (session: Session): Promise<void> => {
  const reply = await session.client.host.saveCopy();
  if (!reply.ok) session.fail(reply.failure);
  else if (reply.value !== null) session.tell("information", `A copy of the ledger was written to ${reply.value}.`);
};
