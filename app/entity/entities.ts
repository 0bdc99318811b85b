/**
 * The one list of the kinds of thing a plan is made of. The contract, the database, the exchange format and the edit
 * history take their kinds from here; whoever adds one is led by the compiler to what is missing.
 */
import type { z } from "zod";
import { craft, craftClass } from "./craft.ts";
import { depot } from "./depot.ts";
import { flight } from "./flight.ts";
import { lossPeriod } from "./loss-period.ts";
import { campaign, planCase } from "./plan-case.ts";
import { riskInput } from "./risk-input.ts";
import { propellant } from "./propellant.ts";
import { sortie } from "./sortie.ts";
import { source } from "./source.ts";
import { tank } from "./tank.ts";
import { profile } from "./profile.ts";

/** In the order in which they may be created: what is referred to stands first. */
export const entitySchemas = {
  propellant,
  depot,
  source,
  craftClass,
  profile,
  craft,
  tank,
  planCase,
  lossPeriod,
  campaign,
  flight,
  sortie,
  riskInput,
} as const;

export type EntityKind = keyof typeof entitySchemas;
export type Entity<K extends EntityKind> = Readonly<z.infer<(typeof entitySchemas)[K]>>;

export const entityKinds = Object.keys(entitySchemas) as readonly EntityKind[];

/** All rows of the plan side of a ledger, by kind. */
export type EntitySet = { readonly [K in EntityKind]: readonly Entity<K>[] };

/** One change of a plan. A put replaces or creates the whole row. */
export type Change =
  | { readonly [K in EntityKind]: { readonly op: "put"; readonly kind: K; readonly value: Entity<K> } }[EntityKind]
  | { readonly op: "remove"; readonly kind: EntityKind; readonly id: string };
