/** The issues that the ledger keeps, the latest first; one that is chosen is then shown as it was issued. */
import { shortHash } from "../../app/report/format/subtitle.ts";
import type { ReportIssue } from "../../app/ledger/report-issue.ts";
import { formatInstant } from "../format/instant.ts";
import { useQuestion } from "../state/use-question.ts";
import { FormSection } from "../widgets/form-row.tsx";
import { showIssue, useShown } from "./report-choices.ts";

export const IssueList = () => {
  const { value: issues, failure } = useQuestion("issues", "report.issues", {});
  const { issueNumber, againstNumber } = useShown();
  return (
    <FormSection rank="h2" title="Kept issues">
      {failure !== null && <p className="form-fault">{failure.message}</p>}
      {issues !== null && issues.length === 0 && (
        <p className="form-advice">None yet. An issue is kept for good, and prints the same ever after.</p>
      )}
      <ol className="issue-list">
        {issues?.toReversed().map((issue) => (
          <li key={issue.number}>
            <IssueLine issue={issue} isShown={[issueNumber, againstNumber].includes(issue.number)} />
          </li>
        ))}
      </ol>
    </FormSection>
  );
};

const IssueLine = ({ issue, isShown }: { issue: ReportIssue; isShown: boolean }) => (
  <button
    type="button"
    className="issue-line"
    aria-current={isShown ? "true" : undefined}
    title={`Seal ${issue.seal}`}
    onClick={() => showIssue(issue.number)}
  >
    <span className="issue-number">
      <span className="unseen">Issue </span>
      {issue.number}
    </span>
    <span className="issue-words">
      <span>
        {issue.caseName}
        {issue.note !== "" && `: ${issue.note}`}
      </span>
      <span className="issue-more">
        {formatInstant(issue.issuedAt)}, {issue.author}
      </span>
      <span className="issue-more figures">{shortHash(issue.inputHash)}</span>
    </span>
  </button>
);
