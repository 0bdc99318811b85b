/** Holding a thing by keys: pick it up, move it step by step with the consequences read aloud, put it down or back. */
import { DAY_MS } from "../../../app/ground/quantity.ts";
import type { Change } from "../../../app/entity/entities.ts";
import type { SupplyGlance } from "../../../app/supply/answer.ts";
import { formatInstant } from "../../format/instant.ts";
import type { Hold } from "../drag/hold.ts";
import { type Grab, HOUR_MS, whyNotMovable } from "../drag/move.ts";
import type { TimelineItem } from "../layout/items.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { berthEndAt } from "../model/timeline-model.ts";
import { consequences } from "../words/consequence.ts";
import { type Stage, paintAtRest, takeHold } from "./stage.ts";

export interface KeyHoldReports {
  readonly stage: () => Stage | null;
  /** Why nothing can be changed now; null: it can. */
  readonly whyClosed: () => string | null;
  readonly say: (words: string) => void;
  readonly drop: (model: TimelineModel, grab: Grab, change: Change) => void;
  readonly holding: (isHolding: boolean) => void;
  readonly follow: (glance: SupplyGlance) => void;
}

export interface KeyHold {
  readonly isHolding: () => boolean;
  readonly pickUp: (item: TimelineItem, grip: Grab["grip"]) => boolean;
  /** Moves what is held; `steps` of a day, ten days or an hour. */
  readonly step: (steps: number, size: "day" | "ten days" | "hour") => void;
  readonly putDown: () => void;
  readonly putBack: () => void;
}

const stepMs = { day: DAY_MS, "ten days": 10 * DAY_MS, hour: HOUR_MS } as const;

/** Where the held part stands in a plan. */
const heldAt = (model: TimelineModel, grab: Grab): number | null => {
  const flight = model.flights.find((row) => row.id === grab.id);
  if (flight !== undefined)
    return grab.grip === "end" ? berthEndAt(flight) : grab.grip === "arrival" ? flight.arriveAt : flight.departAt;
  const sortie = model.sorties.find((row) => row.id === grab.id);
  return sortie === undefined ? null : grab.grip === "end" ? sortie.returnAt : sortie.loadAt;
};

export const createKeyHold = (reports: KeyHoldReports): KeyHold => {
  let held: { readonly hold: Hold; readonly stage: Stage; delta: number } | null = null;

  const letGo = (): void => {
    held?.hold.release();
    held = null;
    reports.holding(false);
  };

  return {
    isHolding: () => held !== null,
    pickUp: (item, grip) => {
      const stage = reports.stage();
      if (stage === null || item.kind === "level") return false;
      const grab: Grab = { kind: item.kind, id: item.id, grip };
      const why = reports.whyClosed() ?? whyNotMovable(stage.model.plan, grab);
      if (why !== null) {
        reports.say(why);
        return false;
      }
      held = { hold: takeHold(stage, grab, reports.follow), stage, delta: 0 };
      reports.holding(true);
      reports.say("Picked up. Arrows move it by a day, Space puts it down, Escape puts it back.");
      return true;
    },
    step: (steps, size) => {
      if (held === null) return;
      held.delta += steps * stepMs[size];
      const changed = held.hold.stepTo(held.delta);
      const { stage, hold } = held;
      const at = heldAt(changed, hold.grab);
      const words = consequences(changed.plan, stage.model.glance, changed.glance, stage.frame.unit);
      reports.say(`${at === null ? "" : `Moved to ${formatInstant(at)}. `}${words}`);
    },
    putDown: () => {
      if (held === null) return;
      const { hold, stage } = held;
      const change = hold.proposal();
      letGo();
      if (change !== null) return reports.drop(stage.model, hold.grab, change);
      paintAtRest(stage);
      reports.say("Put down where it was.");
    },
    putBack: () => {
      if (held === null) return;
      letGo();
      const stage = reports.stage();
      if (stage !== null) paintAtRest(stage);
      reports.say("Put back.");
    },
  };
};
