/** `verify`: is the file sound, and are its books those that a report rests on? */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Books, Soundness } from "../../../app/ledger/ledger-view.ts";
import { shortHash } from "../../../app/report/format/subtitle.ts";
import { type CliCommand, type CommandHost, ledgerPath } from "../cli-command.ts";

/** As a person copies it from paper: spaces, capitals, an ending that they left out. */
const typedDigest = (typed: unknown): string | null => {
  if (typeof typed !== "string") return null;
  const digest = typed.replaceAll(/\s/g, "").toLowerCase();
  if (!/^[0-9a-f]{8,64}$/.test(digest))
    throw new PlanningError(
      "invalid input",
      "Give the digest of the books as the report prints it: at least its first eight digits, 0 to 9 and a to f.",
      "books",
    );
  return digest;
};

const count = (entries: number): string => `${entries} ${entries === 1 ? "entry" : "entries"}`;

const sayFound = (asked: string, found: Books | null, now: Soundness): string => {
  if (found === null)
    return `This ledger never had books with the digest ${shortHash(asked)}: the report was made from another ledger, or the books were changed since.`;
  const later = now.entries - found.entries;
  return later === 0
    ? `The books with the digest ${shortHash(asked)} are these, with nothing recorded since.`
    : `The books with the digest ${shortHash(asked)} are the first ${count(found.entries)} of these; ${count(later)} came later.`;
};

const lookFor = async (host: CommandHost, digest: string | null): Promise<Books | null> =>
  digest === null ? null : await host.ask("ledger.books", { digest });

export const verifyCommand = {
  name: "verify",
  summary: "Check a ledger file: integrity of the database, balance of the books, references",
  examples: [{ line: "verify tarn.coldstock", does: "is the file sound?" }],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--books <digest>", "also ask whether the ledger had the books that a report rests on");
  },
  act: async (host, given, options) => {
    const asked = typedDigest(options["books"]);
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const soundness = await host.ask("ledger.verify", {});
    // What an unsound ledger says of its digests proves nothing.
    const found = soundness.isSound ? await lookFor(host, asked) : null;
    const counted = `${count(soundness.entries)}, ${soundness.postings} postings`;
    const lines = soundness.isSound
      ? [`${ledger.fileName} is sound: ${counted}.`]
      : [`${ledger.fileName} is not sound (${counted}):`, ...soundness.faults.map((fault) => `  ${fault}`)];
    if (soundness.isSound && soundness.books !== null && soundness.books.entries > 0)
      lines.push(`Digest of the books: ${soundness.books.digest}`);
    if (asked !== null && soundness.isSound) lines.push(sayFound(asked, found, soundness));
    return {
      holds: soundness.isSound && (asked === null || found !== null),
      json: { ledger: ledger.path, ...soundness, ...(asked === null ? {} : { booksAsked: asked, booksFound: found }) },
      text: lines.join("\n"),
    };
  },
} satisfies CliCommand;
