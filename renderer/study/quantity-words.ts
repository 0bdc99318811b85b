/** What the quantities that a study can vary are called in lists, in the order in which they are offered. */
import type { StudyQuantity } from "../../app/study/question.ts";

export const quantityWords: Readonly<Record<StudyQuantity, string>> = {
  "loss factor": "loss factor",
  "loss rate": "loss rate",
  "cooler outage": "cooler outage",
  "tank size": "tank size",
  reserve: "reserve",
  payload: "payload",
  transit: "transit",
  "flight delay": "flight delay",
  cadence: "cadence of flights",
  "flights left out": "flights left out",
  cargo: "cargo",
  "sortie cadence": "cadence of sorties",
  reliability: "reliability",
  slip: "mean slip",
};
