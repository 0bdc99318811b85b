/** What is tried with failing calls: each with a ledger of its own, and what must be true of the files after its answer. */
import { copyFileSync, existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { openLedger } from "../../../db/ledger.ts";
import { readLedgerFile } from "../../../db/read-only-copy.ts";
import { storeUpload } from "../../../main/browser/data-folder.ts";
import { writeOut } from "../../../main/page/write-out.ts";
import type { Service } from "../../../main/service/service.ts";
import { askEdit, editsIn } from "../edit-stream.ts";
import { OLDER, type TrialName } from "./trial-names.ts";
import { childOf, must, serviceIn } from "./small-service.ts";

export type Answer = { readonly ok: true } | { readonly ok: false; readonly words: string };

export interface Prepared {
  /** The action under trial. */
  act(): Promise<Answer>;
  /** What is not true of the files after this answer; null: all is. */
  judge(answer: Answer): Promise<string | null>;
}

export interface Trial {
  readonly name: TrialName;
  /** `base`: a ledger that holds edits 1 to 6; it is copied. */
  prepare(folder: string, base: string): Promise<Prepared>;
}

/** The word that says that neither is known is true whatever the file holds. */
const OPEN_WORD = /it cannot be said whether/;
/** Only the answer failed. */
const WRITTEN_WORD = /^The step was written, but/;

const answered = async (call: Promise<{ readonly ok: boolean } | null>): Promise<Answer> => {
  const reply = (await call) as { ok: true } | { ok: false; failure: { message: string } } | null;
  if (reply === null) return { ok: false, words: "gone" };
  return reply.ok ? { ok: true } : { ok: false, words: reply.failure.message };
};

const ledgerIn = (folder: string): string => join(folder, "small.coldstock");

const opened = async (folder: string, base: string): Promise<{ readonly service: Service; readonly path: string }> => {
  const path = ledgerIn(folder);
  copyFileSync(base, path);
  const service = await serviceIn(folder);
  await must(service, "ledger.open", { path });
  return { service, path };
};

const sixth = [1, 2, 3, 4, 5, 6];

/** What the file says of itself when it is opened anew: the edits it holds, all that it holds, what is wrong with it. */
const look = (path: string): { readonly edits: string; readonly all: string; readonly fault: string | null } => {
  const store = openLedger(path);
  try {
    const { isSound, faults } = store.verify();
    const document = store.document();
    return {
      edits: editsIn(document).join(" "),
      all: JSON.stringify(document),
      fault: isSound ? null : `not sound: ${faults[0]}`,
    };
  } finally {
    store.close();
  }
};

const judgeEdits = (
  path: string,
  answer: Answer,
  done: readonly number[],
  before: readonly number[],
): string | null => {
  const { edits, fault } = look(path);
  if (fault !== null) return fault;
  if (!answer.ok && OPEN_WORD.test(answer.words) && [done.join(" "), before.join(" ")].includes(edits)) return null;
  const isDone = answer.ok || WRITTEN_WORD.test(answer.words);
  const wanted = (isDone ? done : before).join(" ");
  return edits === wanted ? null : `told ${answer.ok ? "done" : `“${answer.words}”`}, and it holds ${edits}`;
};

/** An edit of each kind, first of an opening or not. */
const editTrial = (name: TrialName, n: number, isFirst: boolean): Trial => ({
  name,
  prepare: async (folder, base) => {
    const { service, path } = await opened(folder, base);
    const earlier = isFirst ? sixth : [...sixth, 9];
    if (!isFirst) await askEdit(childOf(service), 9);
    return {
      act: async () => await answered(askEdit(childOf(service), n)),
      judge: async (answer) => {
        await service.close();
        return judgeEdits(
          path,
          answer,
          [...earlier, n].toSorted((a, b) => a - b),
          earlier,
        );
      },
    };
  },
});

const undoTrial: Trial = {
  name: "undo",
  prepare: async (folder, base) => {
    const { service, path } = await opened(folder, base);
    await askEdit(childOf(service), 9);
    return {
      act: async () => await answered(service.call("plan.undo", {})),
      judge: async (answer) => {
        await service.close();
        return judgeEdits(path, answer, sixth, [...sixth, 9]);
      },
    };
  },
};

const redoTrial: Trial = {
  name: "redo",
  prepare: async (folder, base) => {
    const { service, path } = await opened(folder, base);
    await askEdit(childOf(service), 9);
    await must(service, "plan.undo", {});
    return {
      act: async () => await answered(service.call("plan.redo", {})),
      judge: async (answer) => {
        await service.close();
        return judgeEdits(path, answer, [...sixth, 9], sixth);
      },
    };
  },
};

/** A new file: there whole, or not at all. */
const newFileTrial = (
  name: TrialName,
  act: (service: Service, place: string, path: string) => Promise<{ readonly ok: boolean } | null>,
  edits: readonly number[],
): Trial => ({
  name,
  prepare: async (folder, base) => {
    const { service, path } = await opened(folder, base);
    const place = join(folder, "new.coldstock");
    return {
      act: async () => await answered(act(service, place, path)),
      judge: async (answer) => {
        await service.close();
        const beside = readdirSync(folder).filter((each) => each.includes(".draft"));
        if (beside.length > 0) return `left ${beside.join(", ")}`;
        if (!answer.ok) return existsSync(place) ? `told “${answer.words}”, and there is a file` : null;
        return judgeEdits(place, answer, edits, edits);
      },
    };
  },
});

const mergeTrial: Trial = {
  name: "merge",
  prepare: async (folder, base) => {
    const { service: theirs, path: theirPath } = await opened(folder, base);
    await askEdit(childOf(theirs), 7);
    await theirs.close();
    const other = join(folder, "theirs.coldstock");
    copyFileSync(theirPath, other);
    const own = join(folder, "own");
    copyFileSync(base, `${own}.coldstock`);
    const service = await serviceIn(folder);
    const path = `${own}.coldstock`;
    await must(service, "ledger.open", { path });
    const asked = { path: other, decisions: [], takeCases: [] };
    const { fingerprint } = await must(service, "merge.preview", asked);
    return {
      act: async () => await answered(service.call("merge.take", { ...asked, fingerprint })),
      judge: async (answer) => {
        await service.close();
        return judgeEdits(path, answer, [...sixth, 7], sixth);
      },
    };
  },
};

/** A file that leaves the program, new or in the place of another. */
const writingTrial = (name: TrialName, before: string | null): Trial => ({
  name,
  prepare: async (folder) => {
    const path = join(folder, "report.html");
    const content = "x".repeat(100_000);
    if (before !== null) writeFileSync(path, before);
    return await Promise.resolve({
      act: async (): Promise<Answer> => {
        try {
          writeOut(path, content, { mayReplace: true, from: null });
          return await Promise.resolve({ ok: true });
        } catch (error) {
          if (error instanceof PlanningError) return { ok: false, words: error.message };
          throw error;
        }
      },
      judge: async (answer: Answer): Promise<string | null> => {
        const beside = readdirSync(folder).filter((each) => each !== "report.html");
        if (beside.length > 0) return await Promise.resolve(`left ${beside.join(", ")}`);
        const now = existsSync(path) ? readFileSync(path, "utf8") : null;
        const isWritten = answer.ok || /was written, but the disk did not confirm it/.test(answer.words);
        if (isWritten) return now === content ? null : "told written, and it is not";
        return now === before ? null : `told “${answer.words}”, and the file is another`;
      },
    });
  },
});

/** A ledger of an older form, brought to the newest as it is opened: it holds what it held, and as it was it is kept. */
const olderFormTrial: Trial = {
  name: "open an older form",
  prepare: async (folder, base) => {
    const path = join(folder, "older.coldstock");
    const older = readFileSync(join(dirname(base), OLDER));
    writeFileSync(path, older);
    const service = await serviceIn(folder);
    return {
      act: async () => await answered(service.call("ledger.open", { path })),
      judge: async (answer) => {
        await service.close();
        // Brought to the newest form only with a copy of what it was beside it, whatever was told.
        const isKept = readdirSync(folder).some(
          (name) => name.endsWith(".backup") && readFileSync(join(folder, name)).equals(older),
        );
        const isAsItWas = readFileSync(path).equals(older);
        if (!isKept && (answer.ok || !isAsItWas)) return "changed, and no copy was kept";
        // What it holds is what the copy holds, opened apart.
        const apart = join(folder, "apart.coldstock");
        writeFileSync(apart, older);
        const [now, then] = [look(path), look(apart)];
        return now.fault ?? (now.all === then.all ? null : "it holds something else");
      },
    };
  },
};

/** A ledger that a page gives to the browser host: there whole, or not at all. */
const uploadTrial: Trial = {
  name: "upload",
  prepare: async (folder, base) => {
    const bytes = readFileSync(base);
    const open = async (path: string) => await Promise.resolve(openLedger(path).close());
    return await Promise.resolve({
      act: async (): Promise<Answer> => {
        try {
          await storeUpload(folder, "given.coldstock", bytes, open);
          return { ok: true };
        } catch (error) {
          if (error instanceof PlanningError) return { ok: false, words: error.message };
          throw error;
        }
      },
      judge: async (answer: Answer): Promise<string | null> => {
        // A lock is held by the system, not by its file, which the next who opens a ledger there sweeps away.
        const left = readdirSync(folder).filter((each) => !each.endsWith(".lock"));
        if (!answer.ok)
          return await Promise.resolve(
            left.length === 0 ? null : `told “${answer.words}”, and left ${left.join(", ")}`,
          );
        const path = join(folder, "given.coldstock");
        return existsSync(path) ? judgeEdits(path, answer, sixth, sixth) : "told done, and there is none";
      },
    });
  },
};

const keepTrial: Trial = {
  name: "keep a state",
  prepare: async (folder, base) => {
    const { service } = await opened(folder, base);
    return {
      act: async () => await answered(service.call("copies.keep", { name: "Before the replan" })),
      judge: async (answer) => {
        const { folder: place, copies } = await must(service, "copies.list", {});
        await service.close();
        if (!answer.ok) return copies.length === 0 ? null : `told “${answer.words}”, and there is a copy`;
        const [copy] = copies;
        if (copy === undefined) return "told kept, and there is none";
        return editsIn(readLedgerFile(join(place, copy.id))).join(" ") === sixth.join(" ")
          ? null
          : "another state was kept";
      },
    };
  },
};

const goBackTrial: Trial = {
  name: "go back",
  prepare: async (folder, base) => {
    const { service, path } = await opened(folder, base);
    const { id: copyId } = await must(service, "copies.keep", { name: "Six" });
    await askEdit(childOf(service), 7);
    await askEdit(childOf(service), 8);
    const { revision } = await must(service, "copies.look", { copyId });
    return {
      act: async () => await answered(service.call("copies.goBack", { copyId, revision })),
      judge: async (answer) => {
        await service.close();
        const now = look(path);
        // Put back and not confirmed by the disk: the answer says so.
        if (!answer.ok && /was put back, but/.test(answer.words)) return now.fault;
        return judgeEdits(path, answer, sixth, [...sixth, 7, 8]);
      },
    };
  },
};

export const trials: readonly Trial[] = [
  editTrial("first edit of an opening", 7, true),
  editTrial("edit of the plan", 12, false),
  editTrial("journal entry", 10, false),
  undoTrial,
  redoTrial,
  newFileTrial(
    "import",
    async (service, place) => {
      const text = documentText(await must(service, "ledger.export", {}));
      return await service.call("ledger.import", { path: place, text });
    },
    sixth,
  ),
  newFileTrial(
    "new ledger",
    async (service, place) => await service.call("ledger.create", { path: place, programme: "New" }),
    [],
  ),
  newFileTrial("save a copy", async (service, place) => await service.call("ledger.copy", { path: place }), sixth),
  mergeTrial,
  writingTrial("report, new", null),
  writingTrial("report, in the place of another", "older"),
  keepTrial,
  goBackTrial,
  olderFormTrial,
  uploadTrial,
];
