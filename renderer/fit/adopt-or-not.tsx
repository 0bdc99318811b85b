/** A fit beside the rate of the plan, what it says about itself, and the form that takes it into the plan. */
import type { Input } from "../../app/contract/contract.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { TankFit } from "../../app/losses/fit/fit-tank.ts";
import { AdoptForm } from "./adopt-form.tsx";
import { FitFigures } from "./fit-figures.tsx";
import "./fit.css";

interface AdoptOrNotProps {
  readonly plan: PlanSnapshot;
  readonly asked: Input<"losses.fit">;
  readonly fit: TankFit;
  /** Once it is in the plan, from this instant. */
  readonly onAdopted?: (fromAt: number) => void;
}

export const AdoptOrNot = ({ plan, asked, fit, onAdopted }: AdoptOrNotProps) => (
  <>
    <FitFigures fit={fit} />
    <AdoptForm
      plan={plan}
      asked={asked}
      cannotAdoptBecause={fit.cannotAdoptBecause}
      firstAt={fit.firstAt}
      lastAt={fit.lastAt}
      {...(onAdopted === undefined ? {} : { onAdopted })}
    />
  </>
);
