/** The figures of every plan case of the ledger, each forecast in the page, one after the other so that the hand is free. */
import { useEffect, useState } from "react";
import { type CaseFigures, caseFigures } from "../../app/supply/case-figures.ts";
import { forecastCase } from "../state/case-forecast.ts";
import { useApp, useSession } from "../state/use-session.ts";

const rest = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** By the id of the case; those that are not there yet are still being worked out. */
export const useCaseFigures = (): ReadonlyMap<string, CaseFigures> => {
  const { client } = useSession();
  const path = useApp((state) => state.ledger?.path);
  const revision = useApp((state) => state.ledger?.revision);
  const ids = useApp((state) => state.ledger?.planCases.map(({ id }) => id).join("\n") ?? "");
  const key = `${path ?? ""}\n${String(revision)}\n${ids}`;
  const [found, setFound] = useState<{ readonly key: string; readonly figures: ReadonlyMap<string, CaseFigures> }>({
    key: "",
    figures: new Map(),
  });
  useEffect(() => {
    let isWanted = true;
    const run = async (): Promise<void> => {
      const figures = new Map<string, CaseFigures>();
      for (const planCaseId of ids.split("\n").filter((id) => id !== "")) {
        const reply = await client.call("plan.view", { planCaseId });
        if (!isWanted) return;
        if (!reply.ok) continue;
        const { plan, forecast, glance } = forecastCase(reply.value);
        figures.set(planCaseId, caseFigures(plan, forecast, glance));
        setFound({ key, figures: new Map(figures) });
        await rest();
      }
    };
    void run();
    return () => {
      isWanted = false;
    };
  }, [client, key, ids]);
  return found.key === key ? found.figures : new Map();
};
