/** Above the pages: which report lies there, and what can be done with it. */
import type { Block, ReportModel, Table } from "../../app/report/model.ts";
import { issueWord, shortHash } from "../../app/report/format/subtitle.ts";
import { useActions } from "../actions/use-actions.ts";
import { formatInstant } from "../format/instant.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { MenuButton } from "../widgets/menu-button.tsx";
import { shown, showIssue, useShown } from "./report-choices.ts";
import { formWords, saveReport } from "./save-report.ts";
import { READ_ONLY, firstOf } from "../widgets/unable.ts";

const NOT_READY = "The report is not made yet.";

const wholeForms = ["pdf", "html", "xlsx", "ics"] as const;

const isTable = (block: Block): block is Table => block.kind === "table";

/** More of a caption than this is no name. */
const LONGEST_NAME = 44;

/** What a table is called where its section has several: its caption up to the first stop. */
const nameOf = ({ caption }: Table): string => {
  const name = caption.split(/[.:;]/)[0] ?? caption;
  return name.length > LONGEST_NAME ? (name.split(",")[0] ?? name).slice(0, LONGEST_NAME) : name;
};

/** The tables of a report, each by its section and, where there are several in it, its own name. */
const tablesOf = (report: ReportModel | null): readonly { readonly id: string; readonly name: string }[] =>
  (report?.sections ?? []).flatMap(({ title, blocks }) => {
    const tables = blocks.filter(isTable);
    return tables.map((table) => ({
      id: table.id,
      name: tables.length === 1 ? title : `${title}: ${nameOf(table)}`,
    }));
  });

const titleOf = (report: ReportModel | null, issueNumber: number | null, againstNumber: number | null): string => {
  if (report === null) return "No report yet";
  if (issueNumber === null || againstNumber === null) return issueWord(report);
  return `Issue ${Math.min(issueNumber, againstNumber)} beside issue ${Math.max(issueNumber, againstNumber)}`;
};

/** The other issues that the one that is shown can be set beside. */
const BesideChoice = ({ issueNumber }: { issueNumber: number }) => {
  const { value: issues } = useQuestion("issues", "report.issues", {});
  const others = (issues ?? []).filter(({ number }) => number !== issueNumber).toReversed();
  return (
    <MenuButton
      label="Set beside"
      unable={others.length === 0 ? "There is no other issue." : null}
      choices={others.map(({ number, issuedAt, caseName, note }) => ({
        id: String(number),
        label: `Issue ${number}, ${formatInstant(issuedAt)}: ${note === "" ? caseName : note}`,
        run: () => shown.set({ againstNumber: number }),
      }))}
    />
  );
};

export const ReportBar = ({ report, pages }: { report: ReportModel | null; pages: number }) => {
  const session = useSession();
  const actions = useActions();
  const isWritable = useApp(({ ledger }) => ledger !== null && ledger.readOnlyBecause === null);
  const { issueNumber, againstNumber } = useShown();
  const isBeside = againstNumber !== null;
  const isIssue = issueNumber !== null && !isBeside;
  return (
    <header className="report-bar">
      <p className="report-bar-words">
        <strong>{titleOf(report, issueNumber, againstNumber)}</strong>
        {report !== null && (
          <span className="report-bar-more">
            {isIssue && report.issueNumber !== null && `${formatInstant(report.issuedAt)}, ${report.author}, `}
            {/* Set in another typeface by another writer, the PDF holds the same and ends its lines elsewhere. */}
            {pages === 1 ? "1 page" : `${pages} pages (the PDF may break them elsewhere)`}
            {/* An issue's hash stands in the list. */}
            {!isIssue && !isBeside && (
              <>
                , inputs{" "}
                <span className="figures" title={`SHA-256 of what it was made from: ${report.inputHash}`}>
                  {shortHash(report.inputHash)}
                </span>
              </>
            )}
          </span>
        )}
      </p>
      <div className="report-bar-buttons">
        {isBeside && (
          <Button look="quiet" onPress={() => shown.set({ againstNumber: null })}>
            Issue {issueNumber} alone
          </Button>
        )}
        {issueNumber !== null && (
          <Button look="quiet" onPress={() => showIssue(null)}>
            Back to the plan as it is now
          </Button>
        )}
        {issueNumber !== null && <BesideChoice issueNumber={issueNumber} />}
        <Button onPress={() => actions.run("report.print")} unable={report === null ? NOT_READY : null}>
          Print…
        </Button>
        <MenuButton
          label="Save as"
          unable={report === null ? NOT_READY : null}
          choices={[
            ...wholeForms
              .filter((form) => !isBeside || form !== "ics")
              .map((form) => ({
                id: form,
                label: formWords[form].charAt(0).toUpperCase() + formWords[form].slice(1),
                run: () => void saveReport(session, form, null),
              })),
            ...tablesOf(report).map((table) => ({
              id: `csv ${table.id}`,
              label: `${table.name} (CSV)`,
              run: () => void saveReport(session, "csv", table.id),
            })),
          ]}
        />
        {issueNumber === null && (
          <Button
            look="primary"
            onPress={() => actions.run("report.issue")}
            unable={firstOf([report === null, NOT_READY], [!isWritable, READ_ONLY])}
          >
            Issue report…
          </Button>
        )}
      </div>
    </header>
  );
};
