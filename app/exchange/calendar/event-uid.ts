/** The UID of an exported event: one for one flight, sortie or window of a plan case, so that an import finds it again. */

const UID_DOMAIN = "coldstock.invalid";

/** `key`: of the flight or sortie; of a window its depot and instant. */
export const eventUid = (kind: "flight" | "berth" | "sortie" | "window", key: string, planCaseId: string): string =>
  `${kind}-${key}-${planCaseId}@${UID_DOMAIN}`;

/** Whether an event was exported by this program; `kind`: as what. */
export const ownKind = (uid: string): "flight" | "berth" | "sortie" | "window" | null => {
  const found = /^(flight|berth|sortie|window)-.+@coldstock\.invalid$/.exec(uid);
  return found === null ? null : (found[1] as "flight");
};
