/** Sums of the journal for the loss statement: by depot, propellant and period, from the index of postings alone. */
import type { StatementSums } from "../app/ledger/statement-sums.ts";
import type { Connection } from "./connection.ts";

/** What a depot keeps or loses; a posting on any other account means that mass came in or went out. */
const KEPT_ACCOUNTS = `SELECT a.no, a.kind, a.propellant_id AS propellantId, a.balance_grams AS balance,
    CASE a.kind WHEN 'tank' THEN t.owner_id ELSE a.owner_id END AS depotId
  FROM account a LEFT JOIN tank t ON a.kind = 'tank' AND t.id = a.owner_id
  WHERE (a.kind = 'tank' AND t.owner_kind = 'depot')
    OR (a.kind IN ('boil-off', 'handover loss', 'vented', 'unaccounted')
      AND EXISTS (SELECT 1 FROM depot d WHERE d.id = a.owner_id))
  ORDER BY depotId, a.propellant_id, a.no`;

export const POSTED_UNTIL = "SELECT coalesce(sum(grams), 0) FROM posting WHERE account_no = ? AND at <= ?";
export const POSTED_BETWEEN = "SELECT coalesce(sum(grams), 0) FROM posting WHERE account_no = ? AND at > ? AND at <= ?";

/** What each entry brought in or took out, taken together by direction. */
export const FLOWS_BETWEEN = `SELECT coalesce(sum(CASE WHEN net > 0 THEN net END), 0), coalesce(sum(CASE WHEN net < 0 THEN -net END), 0)
  FROM (SELECT sum(grams) AS net FROM posting
    WHERE account_no IN (SELECT value FROM json_each(?)) AND at > ? AND at <= ? GROUP BY entry_no)`;

/** Counter-entries are few, and the index of what they take back lists them; CROSS JOIN keeps SQLite from scanning postings. */
export const COUNTER_POSTINGS = `SELECT p.entry_no AS entryNo, p.at, p.account_no AS accountNo, p.grams
  FROM entry c CROSS JOIN posting p ON p.entry_no = c.no WHERE c.reverses_no > 0`;

type KeptKind = "tank" | "boil-off" | "handover loss" | "vented" | "unaccounted";

interface KeptAccount {
  readonly no: number;
  readonly kind: KeptKind;
  readonly propellantId: string;
  readonly balance: number;
  readonly depotId: string;
}

interface CounterPosting {
  readonly entryNo: number;
  readonly at: number;
  readonly accountNo: number;
  readonly grams: number;
}

/**
 * What counter-entries moved through a depot's keeping: with what they take back they stand once on either side, so both
 * sides are too large by this. One number a counter-entry, with its instant.
 */
const counterFlows = (postings: readonly CounterPosting[], accountNos: ReadonlySet<number>) => {
  const nets = new Map<number, { readonly at: number; grams: number }>();
  for (const { entryNo, at, accountNo, grams } of postings) {
    if (!accountNos.has(accountNo)) continue;
    const net = nets.get(entryNo) ?? { at, grams: 0 };
    net.grams += grams;
    nets.set(entryNo, net);
  }
  return [...nets.values()].map(({ at, grams }) => ({ at, grams: Math.abs(grams) }));
};

/**
 * A line for every depot and propellant with an account, for each period between two edges (rising): from the end of the
 * one to the end of the other. The opening is summed from the first record on, the last closing taken from the balances.
 */
export const readStatementSums = (db: Connection, edges: readonly number[]): readonly StatementSums[] => {
  const accounts = db.prepared(KEPT_ACCOUNTS).all() as KeptAccount[];
  const until = db.prepared(POSTED_UNTIL).pluck();
  const between = db.prepared(POSTED_BETWEEN).pluck();
  const flows = db.prepared(FLOWS_BETWEEN).raw();
  const counters = db.prepared(COUNTER_POSTINGS).all() as CounterPosting[];
  const firstAt = edges[0];
  const lastAt = edges.at(-1);
  if (firstAt === undefined || lastAt === undefined) return [];

  const linesOf = (group: readonly KeptAccount[]): StatementSums[] => {
    const tanks = group.filter((account) => account.kind === "tank");
    const numbers = JSON.stringify(group.map((account) => account.no));
    const taken = counterFlows(counters, new Set(group.map((account) => account.no)));
    const postedTo = (kind: KeptKind, fromAt: number, untilAt: number): number =>
      group
        .filter((account) => account.kind === kind)
        .reduce((sum, account) => sum + (between.get(account.no, fromAt, untilAt) as number), 0);
    let openingGrams = tanks.reduce((sum, account) => sum + (until.get(account.no, firstAt) as number), 0);
    const closingBalance = tanks.reduce(
      (sum, account) => sum + account.balance - (between.get(account.no, lastAt, Number.MAX_SAFE_INTEGER) as number),
      0,
    );
    return edges.slice(1).map((untilAt, index) => {
      const fromAt = edges[index] ?? firstAt;
      const [received, drawn] = flows.get(numbers, fromAt, untilAt) as [number, number];
      const twice = taken.reduce((sum, { at, grams }) => (at > fromAt && at <= untilAt ? sum + grams : sum), 0);
      const opening = openingGrams;
      openingGrams += postedTo("tank", fromAt, untilAt);
      return {
        fromAt,
        untilAt,
        depotId: group[0]?.depotId ?? "",
        propellantId: group[0]?.propellantId ?? "",
        openingGrams: opening,
        receivedGrams: received - twice,
        drawnGrams: drawn - twice,
        boilOffGrams: postedTo("boil-off", fromAt, untilAt),
        handoverLossGrams: postedTo("handover loss", fromAt, untilAt),
        ventedGrams: postedTo("vented", fromAt, untilAt),
        unaccountedGrams: postedTo("unaccounted", fromAt, untilAt),
        closingGrams: untilAt === lastAt ? closingBalance : openingGrams,
      };
    });
  };
  const groups = Map.groupBy(accounts, ({ depotId, propellantId }) => `${depotId} ${propellantId}`);
  return [...groups.values()].flatMap(linesOf);
};
