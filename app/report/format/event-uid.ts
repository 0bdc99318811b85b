/** The UID of an exported event: one for one flight, sortie or window of a plan case, so that an import finds it again. */

const UID_DOMAIN = "coldstock.invalid";

/** What an exported event stands for; a date to leave by and a watched event are worked out, and are no part of the plan. */
type OwnKind = "flight" | "berth" | "sortie" | "window" | "leave-by" | "watch";

/** `key`: of the flight or sortie; of a window its depot and instant. */
export const eventUid = (kind: OwnKind, key: string, planCaseId: string): string =>
  `${kind}-${key}-${planCaseId}@${UID_DOMAIN}`;

/** Whether an event was exported by this program; `kind`: as what. */
export const ownKind = (uid: string): OwnKind | null => {
  const found = /^(flight|berth|sortie|window|leave-by|watch)-.+@coldstock\.invalid$/.exec(uid);
  return found === null ? null : (found[1] as "flight");
};
