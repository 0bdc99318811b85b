/** The store that app declares, over an open connection. */
import { PlanningError } from "../app/ground/failure.ts";
import type { Entity, EntityKind, EntitySet } from "../app/entity/entities.ts";
import { entityKinds } from "../app/entity/entities.ts";
import { byId, findEntity } from "../app/entity/entity-index.ts";
import type { LedgerHeader, Step } from "../app/ledger/books.ts";
import type { LedgerStore } from "../app/contract/store.ts";
import { keepColumnMapping, readColumnMappings } from "./column-mappings.ts";
import { findBooks, readBooks } from "./books.ts";
import { readCalledOff, readIdentity } from "./called-off.ts";
import { commitStep } from "./commit.ts";
import type { Connection } from "./connection.ts";
import { readHistory, readSteps, redoLabel, redoStep, undoLabel, undoStep } from "./edit-history.ts";
import { readFirstPlanned } from "./first-planned.ts";
import { backUp } from "./kept-copy.ts";
import { copyLedger } from "./ledger-copy.ts";
import {
  readEntries,
  readEntry,
  readFlowsAcross,
  readNextStating,
  readPage,
  readRecordsAfter,
} from "./journal-reading.ts";
import type { Hand } from "./journal-writing.ts";
import { readBalanceKg, readMovements, readMovementsOfTank, readOpenings, readStatedLevels } from "./levels.ts";
import { readReadings } from "./readings.ts";
import { rememberReadings } from "./remember-readings.ts";
import { keepIssue, newestStepId, readIssue, readIssues, readKeptIssues, sinceIssue } from "./report-issues.ts";
import { deleteRun, keepRun, readRun, readRuns } from "./risk-runs.ts";
import { deleteStudy, keepStudy, readStudies, readStudy } from "./studies.ts";
import { readRows } from "./rows.ts";
import { readLossBookings } from "./loss-bookings.ts";
import { readStatementSums } from "./statement-sums.ts";
import { asFailure, withStorage } from "./storage-failure.ts";
import { verifyLedger } from "./verify.ts";

export interface StoreOptions {
  readonly path: string;
  readonly readOnlyBecause: string | null;
  /** Why nothing more is taken since it was opened, as a clause; null: all is well. */
  readonly stopped?: () => string | null;
  /** Called once: closes the connection and lets the file go. */
  readonly onClose: () => void;
}

interface LedgerRow {
  readonly programme: string;
  readonly is_demonstration: number;
  readonly as_of_at: number | null;
  readonly revision: number;
}

const readEntities = (db: Connection): EntitySet =>
  Object.fromEntries(entityKinds.map((kind) => [kind, readRows(db, kind)])) as unknown as EntitySet;

/** The plan rows, kept in memory until this or another program changes them. */
const rememberEntities = (db: Connection) => {
  let kept: EntitySet | null = null;
  let keptVersion = -1;
  const otherWrites = () => db.prepared("PRAGMA data_version").pluck().get() as number;
  return {
    read: (): EntitySet => {
      const version = otherWrites();
      if (kept === null || version !== keptVersion) {
        kept = readEntities(db);
        keptVersion = version;
      }
      return kept;
    },
    replace: (entities: EntitySet | null): void => {
      kept = entities;
    },
  };
};

export const LAST_RECORD = `SELECT max(at) FROM (SELECT max(at) AS at FROM entry WHERE state = 'in force'
  UNION ALL SELECT max(at) FROM reading WHERE is_withdrawn = 0)`;

/** What was recorded without an entry, because it moved no mass: dates of recorded flights and sorties are those of the records. */
export const LAST_UNPOSTED = `SELECT max(at) FROM (
  SELECT max(CASE status WHEN 'lost' THEN lost_at WHEN 'departed' THEN depart_at WHEN 'arrived' THEN arrive_at END) AS at
    FROM flight
  UNION ALL SELECT max(CASE status WHEN 'stood down' THEN stood_down_at WHEN 'departed' THEN load_at WHEN 'flown' THEN return_at END)
    FROM sortie)`;

const lastRecordAt = (db: Connection): number | null => {
  const instants = [LAST_RECORD, LAST_UNPOSTED].flatMap((sql) => {
    const at = db.prepared(sql).pluck().get() as number | null;
    return at === null ? [] : [at];
  });
  return instants.length === 0 ? null : Math.max(...instants);
};

const ofCase = (entities: EntitySet, planCaseId: string): EntitySet => {
  if (findEntity(entities, "planCase", planCaseId) === null)
    throw new PlanningError("not found", `There is no plan case ${planCaseId}.`, "planCaseId");
  const isOf = (row: { readonly planCaseId: string | null }) => row.planCaseId === planCaseId;
  return {
    ...entities,
    lossPeriod: entities.lossPeriod.filter((row) => row.planCaseId === null || isOf(row)),
    campaign: entities.campaign.filter(isOf),
    flight: entities.flight.filter(isOf),
    sortie: entities.sortie.filter(isOf),
    riskInput: entities.riskInput.filter(isOf),
  };
};

const nameIn = (entities: EntitySet) => (id: string) => {
  for (const kind of entityKinds) {
    const row = byId<Entity<EntityKind>>(entities[kind]).get(id);
    if (row !== undefined && "name" in row) return row.name;
  }
  return id;
};

/** Carries out of a transaction what was found in it, leaving nothing behind. */
class TakenBack<T> extends Error {
  readonly found: T;
  constructor(found: T) {
    super("taken back");
    this.found = found;
  }
}

const rehearsed = <T>(db: Connection, act: () => T): T => {
  try {
    return db.write((): T => {
      throw new TakenBack(act());
    });
  } catch (error) {
    if (error instanceof TakenBack) return error.found as T;
    throw error;
  }
};

export const ledgerStore = (db: Connection, options: StoreOptions): LedgerStore => {
  const plan = rememberEntities(db);
  const readings = rememberReadings(db);
  let isOpen = true;

  const refuseReadOnly = () => {
    const because = options.readOnlyBecause ?? options.stopped?.() ?? null;
    if (because !== null) throw new PlanningError("read-only", `Nothing can be changed: ${because}.`);
  };

  const turn = (action: (db: Connection, hand: Hand) => void, author: string, recordedAt: number): void => {
    refuseReadOnly();
    withStorage(() =>
      db.write(() => {
        action(db, { author, recordedAt });
        db.prepared("UPDATE ledger SET revision = revision + 1").run();
      }),
    );
    plan.replace(null);
  };

  const header = (): LedgerHeader => {
    const row = db.prepared("SELECT * FROM ledger").get() as LedgerRow;
    return {
      programme: row.programme,
      path: options.path,
      isDemonstration: row.is_demonstration === 1,
      readOnlyBecause: options.readOnlyBecause ?? options.stopped?.() ?? null,
      schemaVersion: db.prepared("PRAGMA user_version").pluck().get() as number,
      revision: row.revision,
      asOfAt: row.as_of_at,
      lastRecordAt: lastRecordAt(db),
      undoLabel: undoLabel(db),
      redoLabel: redoLabel(db),
    };
  };

  const store: LedgerStore = {
    header: () => withStorage(header),
    entities: () => withStorage(plan.read),
    entitiesOfCase: (planCaseId) => withStorage(() => ofCase(plan.read(), planCaseId)),
    statedLevels: () => withStorage(() => readStatedLevels(db)),
    tankMovements: (fromAt, untilAt, mostPerTank) => withStorage(() => readMovements(db, fromAt, untilAt, mostPerTank)),
    movementsOfTank: (tankId, fromAt, untilAt) => withStorage(() => readMovementsOfTank(db, tankId, fromAt, untilAt)),
    openings: () => withStorage(() => readOpenings(db)),
    recordsAfter: (at) => withStorage(() => readRecordsAfter(db, at)),
    balanceKg: (accountId, propellantId) => withStorage(() => readBalanceKg(db, accountId, propellantId)),
    entry: (entryId) => withStorage(() => readEntry(db, entryId)),
    flowsAcross: (tankId, at) => withStorage(() => readFlowsAcross(db, tankId, at)),
    nextStatingEntries: (tankId, afterAt, without = new Set()) =>
      withStorage(() => readNextStating(db, tankId, afterAt, without)),
    readings: () => withStorage(readings.read),
    statementSums: (edges) => withStorage(() => readStatementSums(db, edges)),
    lossBookings: (afterAt) => withStorage(() => readLossBookings(db, afterAt)),
    journal: (filter) => withStorage(() => readPage(db, filter)),
    rehearse: (act, mayOverdraw = false) => {
      refuseReadOnly();
      const before = plan.read();
      const commit = (step: Step): void =>
        withStorage(() => plan.replace(commitStep(db, plan.read(), step, mayOverdraw)));
      try {
        return withStorage(() => rehearsed(db, () => act(mayOverdraw ? { ...store, commit } : store)));
      } finally {
        plan.replace(before);
      }
    },
    commit: (step) => {
      refuseReadOnly();
      withStorage(() => plan.replace(commitStep(db, plan.read(), step)));
    },
    undo: (author, recordedAt) => turn(undoStep, author, recordedAt),
    redo: (author, recordedAt) => turn(redoStep, author, recordedAt),
    history: (offset, limit) => withStorage(() => readHistory(db, offset, limit, nameIn(plan.read()))),
    reportIssues: () => withStorage(() => readIssues(db)),
    reportIssue: (number) => withStorage(() => readIssue(db, number)),
    keepReportIssue: (issue) => {
      refuseReadOnly();
      return withStorage(() => keepIssue(db, issue));
    },
    changesSince: (issueNumber, limit) =>
      withStorage(() => {
        const steps = readSteps(db, 0, limit);
        return issueNumber === null ? steps : sinceIssue(db, issueNumber, steps);
      }),
    newestStepId: () => withStorage(() => newestStepId(db)),
    stepAt: (id) =>
      withStorage(
        () => (db.prepared("SELECT at FROM edit_step WHERE id = ?").pluck().get(id) as number | undefined) ?? null,
      ),
    riskRuns: () => withStorage(() => readRuns(db)),
    riskRun: (number) => withStorage(() => readRun(db, number)),
    keepRiskRun: (run) => {
      refuseReadOnly();
      return withStorage(() => keepRun(db, run));
    },
    deleteRiskRun: (number) => {
      refuseReadOnly();
      withStorage(() => deleteRun(db, number));
    },
    studies: () => withStorage(() => readStudies(db)),
    study: (number) => withStorage(() => readStudy(db, number)),
    keepStudy: (study) => {
      refuseReadOnly();
      return withStorage(() => keepStudy(db, study));
    },
    deleteStudy: (number) => {
      refuseReadOnly();
      withStorage(() => deleteStudy(db, number));
    },
    firstPlannedDepartures: () => withStorage(() => readFirstPlanned(db)),
    columnMappings: () => withStorage(() => readColumnMappings(db)),
    keepColumnMapping: (mapping, at) => {
      refuseReadOnly();
      withStorage(() => keepColumnMapping(db, mapping, at));
    },
    calledOff: (planCaseId) => withStorage(() => readCalledOff(db, planCaseId)),
    identity: () => withStorage(() => readIdentity(db)),
    books: () => withStorage(() => readBooks(db)),
    booksOf: (digest) => withStorage(() => findBooks(db, digest)),
    verify: () => {
      try {
        return verifyLedger(db, plan.read);
      } catch (error) {
        const failure = asFailure(error);
        if (failure instanceof PlanningError && failure.code !== "not a ledger") throw failure;
        // Whatever a check fell over was in the file: a ledger that cannot be checked through is not sound.
        const said = failure instanceof Error ? failure.message : String(failure);
        const fault = failure instanceof PlanningError ? said : `The file holds what cannot be read: ${said}.`;
        return { isSound: false, books: null, faults: [fault], entries: 0, postings: 0 };
      }
    },
    document: () =>
      withStorage(() => {
        const { programme, isDemonstration, asOfAt } = header();
        return {
          format: "coldstock-ledger",
          version: 1,
          programme,
          isDemonstration,
          asOfAt,
          entities: plan.read(),
          entries: readEntries(db),
          readings: readReadings(db),
          reportIssues: readKeptIssues(db),
        };
      }),
    copyTo: (path) =>
      withStorage(() =>
        copyLedger(db, path, (copy) =>
          // A ledger with faults is copied as it is; one whose file was changed under it must not be taken for whole.
          options.stopped?.() == null ? [] : verifyLedger(copy, () => readEntities(copy)).faults,
        ),
      ),
    backUp: async (path) => await backUp(db, path),
    close: () => {
      if (!isOpen) return;
      isOpen = false;
      options.onClose();
    },
  };
  return store;
};
