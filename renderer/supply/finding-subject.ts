/** What a finding is about: the thing that the link beside its sentence selects. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { PlanFinding } from "../../app/supply/answer.ts";
import { missingCase } from "../../app/ground/missing-case.ts";
import type { Selection } from "../state/app-state.ts";

export const findingSubject = (plan: PlanSnapshot, finding: PlanFinding): Selection => {
  switch (finding.kind) {
    case "does not balance":
      return { kind: "propellant", id: finding.propellantId };
    case "overflow":
    case "full depot":
    case "origin ran dry":
    case "unused flight":
      return { kind: "flight", id: finding.flightId };
    case "port conflict":
    case "circular flights":
      return { kind: "flight", id: finding.flightIds[0] ?? "" };
    case "hull overlap":
    case "turnaround not kept":
    case "hull was lost":
      return { kind: "flight", id: finding.flightIds[1] };
    case "unusual load":
      return { kind: finding.of, id: finding.id };
    case "near-equal names":
      return { kind: finding.of, id: finding.ids[1] };
    case "far reading":
      return { kind: "reading", id: finding.readingId };
    case "backdated loss":
    case "tank empty":
      return { kind: "tank", id: finding.tankId };
    case "below reserve":
      return { kind: "depot", id: finding.depotId };
    case "lander overlap":
      return { kind: "sortie", id: finding.sortieIds[1] };
    case "engine change due":
    case "time away differs":
    case "sortie check":
    case "lander cannot hold":
    case "surplus aboard":
      return { kind: "sortie", id: finding.sortieId };
    case "overdue":
      return { kind: plan.flights.some(({ id }) => id === finding.id) ? "flight" : "sortie", id: finding.id };
    default:
      return missingCase(finding);
  }
};
