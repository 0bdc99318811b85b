/** Rules of sorties and campaigns. */
import { findEntity } from "../../entity/entity-index.ts";
import { keyIsTaken } from "./key-rule.ts";
import { type Rule, need, repeated } from "./rule.ts";

const datesInOrder: Rule<"sortie"> = (sortie) =>
  need(sortie.loadAt < sortie.returnAt, "returnAt", `${sortie.name} returns before it leaves, or at that instant.`);

const fliesLander: Rule<"sortie"> = (sortie, plan) => {
  const craft = findEntity(plan, "craft", sortie.landerId);
  const craftClass = craft === null ? null : findEntity(plan, "craftClass", craft.classId);
  if (craftClass === null) return [];
  if (craftClass.role !== "lander")
    return [{ property: "landerId", message: `${sortie.name}: ${craft?.name} is not a lander.` }];
  if (sortie.demand.kind !== "stated") return [];
  return sortie.demand.lines.flatMap((line, i) =>
    need(
      craftClass.propellants.some((carried) => carried.propellantId === line.propellantId),
      `demand.lines.${i}.propellantId`,
      `${sortie.name}: ${craftClass.name} does not carry ${line.propellantId}.`,
    ),
  );
};

const demandIsSound: Rule<"sortie"> = (sortie) => {
  if (sortie.demand.kind !== "stated") return [];
  const { lines } = sortie.demand;
  return [
    ...repeated(lines.map((line) => line.propellantId)).map((i) => ({
      property: `demand.lines.${i}.propellantId`,
      message: `${sortie.name}: this propellant stands in the demand twice.`,
    })),
    ...lines.flatMap((line, i) =>
      need(
        line.returnKg <= line.loadKg,
        `demand.lines.${i}.returnKg`,
        `${sortie.name}: more ${line.propellantId} is to come home than is loaded.`,
      ),
    ),
  ];
};

const sameCase: Rule<"sortie"> = (sortie, plan) => {
  const campaign = findEntity(plan, "campaign", sortie.campaignId);
  return need(
    campaign === null || campaign.planCaseId === sortie.planCaseId,
    "campaignId",
    `${sortie.name}: its campaign belongs to another plan case.`,
  );
};

const keyOnce: Rule<"sortie"> = (sortie, plan) =>
  need(
    !keyIsTaken(plan.sortie, sortie),
    "key",
    `There is a sortie with the key ${sortie.key} in this plan case already.`,
  );

export const sortieRules: readonly Rule<"sortie">[] = [datesInOrder, fliesLander, demandIsSound, sameCase, keyOnce];

const campaignKeyOnce: Rule<"campaign"> = (campaign, plan) =>
  need(
    !keyIsTaken(plan.campaign, campaign),
    "key",
    `There is a campaign with the key ${campaign.key} in this plan case already.`,
  );

export const campaignRules: readonly Rule<"campaign">[] = [campaignKeyOnce];
