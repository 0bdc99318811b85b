/**
 * The UID of an exported event: one for one flight, sortie or window of a plan case of a ledger, so that an import finds it
 * again and two ledgers never take each other's events.
 */

const UID_DOMAIN = "coldstock.invalid";

/** What an exported event stands for; a date to leave by and a watched event are worked out, and are no part of the plan. */
type OwnKind = "flight" | "berth" | "sortie" | "window" | "leave-by" | "watch";

/** `key`: of the flight or sortie; of a window its depot and instant. `ledgerId`: null where the ledger has no books yet. */
export const eventUid = (kind: OwnKind, key: string, planCaseId: string, ledgerId: string | null): string =>
  `${kind}-${key}-${planCaseId}@${ledgerId === null ? "" : `${ledgerId}.`}${UID_DOMAIN}`;

const OWN = /^(flight|berth|sortie|window|leave-by|watch)-.+@(?:([0-9a-f]{12})\.)?coldstock\.invalid$/;

/** Whether an event was exported by this program; as what, and from which ledger (null: it does not say). */
export const ownEvent = (uid: string): { readonly kind: OwnKind; readonly ledgerId: string | null } | null => {
  const found = OWN.exec(uid);
  return found === null ? null : { kind: found[1] as OwnKind, ledgerId: found[2] ?? null };
};

/** The UID as a ledger without books would have given it: by this it is found whenever it was exported. */
export const withoutLedger = (uid: string): string => (OWN.test(uid) ? uid.replace(/@[0-9a-f]{12}\./, "@") : uid);
