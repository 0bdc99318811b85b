/** The bar above the view: its title, the plan case shown, the case it is compared with, and how the plan stands. */
import type { PlanCase } from "../../app/entity/plan-case.ts";
import type { SupplyGlance, SupplyStatus } from "../../app/supply/answer.ts";
import { useActions } from "../actions/use-actions.ts";
import { useRisk } from "../state/use-risk.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { VerdictChanceWords } from "../widgets/verdict-chance.tsx";
import { verdictTone } from "../widgets/verdict-tone.ts";
import { StatusMark } from "../widgets/status-mark.tsx";
import "./case-bar.css";

const NOTHING = "-";

const byPosition = (cases: readonly PlanCase[]): readonly PlanCase[] =>
  [...cases].sort((a, b) => a.position - b.position);

export const CaseBar = ({ title }: { title: string }) => {
  const session = useSession();
  const actions = useActions();
  const ledger = useApp((state) => state.ledger);
  const planCaseId = useApp((state) => state.planCaseId);
  const compareCaseId = useApp((state) => state.compareCaseId);
  const cases = byPosition(ledger?.planCases ?? []);
  const others = cases.filter((planCase) => planCase.id !== planCaseId);
  return (
    <header className="case-bar">
      <h1>{title}</h1>
      <button
        type="button"
        className="view-help"
        aria-label={`Help on ${title}`}
        title="Help on this view (F1)"
        onClick={() => actions.run("help.page")}
      >
        ?
      </button>
      <PlanStanding />
      <div className="case-choices" data-compares={compareCaseId !== null || undefined}>
        <span className="case-word case-word-first" aria-hidden="true">
          Plan case
        </span>
        <ChoiceField
          isBare
          label="Plan case"
          value={planCaseId}
          choices={cases.map(({ id, name }) => ({ id, name }))}
          onCommit={session.chooseCase}
        />
        <span className="case-word" aria-hidden="true">
          compared with
        </span>
        <ChoiceField
          isBare
          label="Compared with"
          value={compareCaseId ?? NOTHING}
          choices={[{ id: NOTHING, name: "nothing" }, ...others.map(({ id, name }) => ({ id, name }))]}
          onCommit={(id) => session.compareWith(id === NOTHING ? null : id)}
        />
        <Button look="quiet" onPress={() => actions.run("plan.newCase")}>
          New case…
        </Button>
      </div>
    </header>
  );
};

const order: readonly SupplyStatus[] = ["supplied", "thin", "short", "not stated"];

const countOf = (glance: SupplyGlance, status: SupplyStatus): number =>
  glance.sorties.filter((sortie) => sortie.status === status).length;

/** Of those that are short, how many wait and then fly. */
const waitingOf = (glance: SupplyGlance): number =>
  glance.sorties.filter(({ outcome }) => outcome === "waits and flies").length;

/** The verdict with its probability, and how many sorties stand how. */
const PlanStanding = () => {
  const held = useApp((state) => state.held);
  const saved = useApp((state) => state.current?.glance ?? null);
  const glance = held ?? saved;
  const { answer, isCurrent } = useRisk();
  if (glance === null || glance.sorties.length === 0) return null;
  return (
    <p className="standing" aria-label="Verdict, and sorties by supply status">
      <strong className={`verdict-word verdict-${verdictTone(glance.verdict)}`} title={glance.verdict.sentence}>
        {glance.verdict.word}
      </strong>
      <VerdictChanceWords answer={answer} isCurrent={isCurrent && held === null} glance={glance} form="figure" />
      {order
        .filter((status) => countOf(glance, status) > 0)
        .map((status) => (
          <span key={status} className="standing-part">
            <span className="figures">{countOf(glance, status)}</span> <StatusMark status={status} />
          </span>
        ))}
      {waitingOf(glance) > 0 && (
        <span className="standing-part">
          <span className="figures">{waitingOf(glance)}</span> {waitingOf(glance) === 1 ? "waits" : "wait"}
        </span>
      )}
    </p>
  );
};
