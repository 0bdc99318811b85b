/** What is supposed of a plan on screen, beside the plan as it is saved. */
import { type Supposed } from "../../app/supply/supposed.ts";
import { type CaseForecast } from "./case-forecast.ts";

/** What is supposed, and the plan as it is saved. */
export interface Trial {
  readonly base: CaseForecast;
  /** By the key of the flight. */
  readonly supposed: Readonly<Record<string, Supposed>>;
}
