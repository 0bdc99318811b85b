/** Keeps what is supposed as a plan case of its own: the case shown is copied, and the copy changed. */
import { supposedChanges, supposedWords } from "../../app/supply/supposed.ts";
import { nextName, uniqueId } from "../names/new-id.ts";
import type { Session } from "../state/session.ts";
import { endTrial } from "../state/trial.ts";

const MAX_NAME = 80;
const MAX_LABEL = 120;

/** A name says at most so much; the flights themselves say the rest. */
const caseName = (words: string, taken: ReadonlySet<string>): string => {
  const name = `What if ${words}`.slice(0, MAX_NAME - 4).trim();
  return taken.has(name) ? nextName(name, taken) : name;
};

/** Answers whether it was kept; why not is shown. */
export const keepTrial = async (session: Session): Promise<boolean> => {
  const { trial, ledger } = session.store.get();
  if (trial === null || ledger === null) return false;
  const { plan } = trial.base;
  const words = supposedWords(plan, trial.supposed);
  const name = caseName(words, new Set(ledger.planCases.map((row) => row.name)));
  const newId = uniqueId(name, "case", new Set(ledger.planCases.map(({ id }) => id)));
  endTrial(session.store);
  const copied = await session.command("case.copy", { fromId: plan.planCase.id, newId, name });
  if (!copied.ok) {
    session.fail(copied.failure);
    return false;
  }
  const view = await session.ask("plan.view", { planCaseId: newId });
  if (view === null) return false;
  const changes = supposedChanges(view.plan, trial.supposed);
  const changed = await session.command("plan.edit", {
    label: `Suppose ${words}`.slice(0, MAX_LABEL),
    reason: "",
    changes: [...changes],
  });
  if (!changed.ok) {
    session.fail(changed.failure);
    return false;
  }
  session.chooseCase(newId);
  session.compareWith(plan.planCase.id);
  return true;
};
