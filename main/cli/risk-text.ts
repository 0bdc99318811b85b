/** A risk answer as text for a terminal. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatNumber } from "../../app/format/number.ts";
import type { Estimate, QuantileEstimate, RiskAnswer, RiskDifference, SortieRisk } from "../../app/risk/answer.ts";
import {
  assumedWords,
  changeText,
  endWords,
  intervalText,
  riskSentence,
  runsWords,
  shareText,
} from "../../app/risk/answer-words.ts";
import { flightsSentence, meanMassText } from "../../app/risk/expected-words.ts";
import { causeSentence } from "../../app/risk/cause-words.ts";
import { type TextColumn, textTable } from "./text-table.ts";

const namesIn = (plan: PlanSnapshot): ((id: string) => string) => {
  const rows = [...plan.sorties, ...plan.flights, ...plan.tanks, ...plan.propellants];
  const names = new Map(rows.map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
};

const left = (title: string): TextColumn => ({ title, align: "start" });
const right = (title: string): TextColumn => ({ title, align: "end" });

const day = (at: number): string => new Date(at).toISOString().slice(0, 10);
const days = (found: QuantileEstimate | undefined): string =>
  found === undefined ? "–" : formatNumber(found.value, 1);

const sortieRow = (plan: PlanSnapshot, { replications }: RiskAnswer, row: SortieRisk): readonly string[] => [
  namesIn(plan)(row.sortieId),
  day(plan.sorties.find(({ id }) => id === row.sortieId)?.loadAt ?? 0),
  shareText(row.fliesWhenPlanned, replications),
  shareText(row.flies, replications),
  days(row.delayDays?.p50),
  days(row.delayDays?.p80),
  days(row.delayDays?.p90),
];

/** What boils off, is not taken or vented on average, by depot and propellant. */
const expectedText = (plan: PlanSnapshot, { pools }: RiskAnswer): string => {
  const nameOf = namesIn(plan);
  const depotOf = new Map(plan.depots.map(({ id, name }) => [id, name]));
  return textTable(
    [left("On average"), right("boil-off"), right("brought, not taken"), right("of it vented")],
    pools.map(({ depotId, propellantId, boilOffKg, notTakenKg, ventedKg }) => [
      `${nameOf(propellantId)}, ${depotOf.get(depotId) ?? depotId}`,
      ...[boilOffKg, notTakenKg, ventedKg].map((mass) => meanMassText(mass, "auto")),
    ]),
  );
};

/** The answer, with what it rests on; `assumed` words stand last, where they are read. */
export const riskText = (plan: PlanSnapshot, answer: RiskAnswer): string => {
  const nameOf = namesIn(plan);
  const table = textTable(
    [
      left("Sortie"),
      left("planned"),
      right("flies when planned"),
      right("flies at all"),
      right("late P50, days"),
      right("P80"),
      right("P90"),
    ],
    answer.sorties.map((row) => sortieRow(plan, answer, row)),
  );
  const causes = answer.sorties.flatMap(({ sortieId, common }) =>
    common.slice(0, 1).map((cause) => causeSentence(nameOf(sortieId), cause, nameOf)),
  );
  const end = answer.campaignEndAt;
  return [
    `${plan.planCase.name}, as of ${day(plan.asOfAt)}: ${runsWords(answer)}.`,
    riskSentence(answer),
    endWords(answer),
    table,
    end === null
      ? "In too few of the runs all sorties fly: there is no end of the campaign to state."
      : `Last return, of the runs in which all fly: P50 ${day(end.p50.value)}, P80 ${day(end.p80.value)}, P90 ${day(end.p90.value)}.`,
    expectedText(plan, answer),
    flightsSentence(answer),
    causes.join("\n"),
    answer.remarks.join("\n"),
    assumedWords(answer),
  ]
    .filter((part) => part !== null && part !== "")
    .join("\n\n");
};

/** How another case differs, paired run by run. */
export const differenceText = (plan: PlanSnapshot, otherName: string, difference: RiskDifference): string => {
  const row = (name: string, planned: Estimate, ever: Estimate) => [
    name,
    changeText(planned),
    intervalText(planned),
    changeText(ever),
  ];
  const named = new Map(plan.sorties.map(({ key, name }) => [key, name]));
  const table = textTable(
    [left("Sortie"), right("flies when planned, points"), right("95 % interval"), right("flies at all, points")],
    [
      row("all sorties", difference.allFlyWhenPlanned, difference.allFly),
      ...difference.sorties.map(({ key, fliesWhenPlanned, flies }) =>
        row(named.get(key) ?? key, fliesWhenPlanned, flies),
      ),
    ],
  );
  return `${otherName} less ${plan.planCase.name}, ± standard error, ${formatNumber(difference.replications)} pairs of runs under the same draws:\n\n${table}`;
};
