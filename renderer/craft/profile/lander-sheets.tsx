/** The sheets of one class of lander: how it flies its sorties, and what it is. */
import type { Entity } from "../../../app/entity/entities.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";
import { Tabs } from "../../widgets/tabs.tsx";
import { AcrossPanel } from "../across/across-panel.tsx";
import { LanderForm } from "../lander/lander-form.tsx";
import { ProfilePanel } from "./profile-panel.tsx";

interface LanderSheetsProps {
  readonly current: CaseForecast;
  readonly craftClass: Entity<"craftClass">;
}

export const LanderSheets = ({ current, craftClass }: LanderSheetsProps) => (
  <section aria-label={craftClass.name}>
    <h2>{craftClass.name}</h2>
    <Tabs
      label={`Sheets of ${craftClass.name}`}
      sheets={[
        {
          id: "sorties",
          title: "Sortie sheet",
          content: <ProfilePanel current={current} craftClass={craftClass} />,
        },
        { id: "lander", title: "Lander", content: <LanderForm craftClass={craftClass} plan={current.plan} /> },
        { id: "across", title: "Other vehicles", content: <AcrossPanel current={current} craftClass={craftClass} /> },
      ]}
    />
  </section>
);
