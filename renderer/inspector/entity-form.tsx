/** The form of each kind of thing: one line a kind. */
import type { ComponentType } from "react";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import type { Editing } from "./editing.ts";
import { CampaignForm, PlanCaseForm } from "./forms/case-forms.tsx";
import { CraftClassForm, CraftForm } from "./forms/craft-forms.tsx";
import { FlightForm } from "./forms/flight-form.tsx";
import { LossPeriodForm } from "./forms/loss-period-form.tsx";
import { DepotForm, PropellantForm, SourceForm } from "./forms/place-forms.tsx";
import { ProfileForm } from "./forms/profile-form.tsx";
import { SortieForm } from "./forms/sortie-form.tsx";
import { RiskInputForm } from "../risk/risk-input-form.tsx";
import { TankForm } from "./forms/tank-form.tsx";

const forms: { readonly [K in EntityKind]: ComponentType<{ edit: Editing<Entity<K>> }> } = {
  propellant: PropellantForm,
  depot: DepotForm,
  source: SourceForm,
  craftClass: CraftClassForm,
  profile: ProfileForm,
  craft: CraftForm,
  tank: TankForm,
  planCase: PlanCaseForm,
  lossPeriod: LossPeriodForm,
  campaign: CampaignForm,
  flight: FlightForm,
  sortie: SortieForm,
  riskInput: RiskInputForm,
};

export const EntityForm = <K extends EntityKind>({ kind, edit }: { kind: K; edit: Editing<Entity<K>> }) => {
  const Form = forms[kind] as ComponentType<{ edit: Editing<Entity<K>> }>;
  return <Form edit={edit} />;
};
