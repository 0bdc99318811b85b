/** The form of each kind of thing: one line a kind. */
import type { ComponentType } from "react";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import type { Editing } from "../editing/editing.ts";
import { CampaignForm, PlanCaseForm } from "./case-forms.tsx";
import { CraftClassForm, CraftForm } from "./craft-forms.tsx";
import { FlightForm } from "./flight-form.tsx";
import { LossPeriodForm } from "./loss-period-form.tsx";
import { DepotForm, PropellantForm, SourceForm } from "./place-forms.tsx";
import { ProfileForm } from "./profile-form.tsx";
import { SortieForm } from "./sortie-form.tsx";
import { RiskInputForm } from "../uncertainty/risk-input-form.tsx";
import { TankForm } from "./tank-form.tsx";

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
