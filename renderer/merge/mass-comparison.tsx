/** The masses of a conflict beside each other, to the gram, and by how much they differ. */
import type { ComparedMass } from "../../app/merge/merge-view.ts";
import { formatNumber, formatSigned } from "../format/number.ts";
import { useApp } from "../state/use-session.ts";
import { PropellantMark } from "../widgets/propellant-mark.tsx";

/** Grams are exact. */
const DECIMALS = 3;

const figure = (kg: number | null): string => (kg === null ? "–" : formatNumber(kg, DECIMALS));

const difference = ({ oursKg, theirsKg }: ComparedMass): string => {
  const kg = (theirsKg ?? 0) - (oursKg ?? 0);
  return Math.abs(kg) < 0.0005 ? "none" : formatSigned(kg, DECIMALS);
};

export const MassComparison = ({ masses }: { readonly masses: readonly ComparedMass[] }) => {
  const propellants = useApp((state) => state.current?.plan.propellants);
  if (masses.length === 0) return <p className="form-advice">No mass stands behind either.</p>;
  return (
    <table className="merge-masses">
      <caption className="unseen">Masses on both sides</caption>
      <thead>
        <tr>
          <th scope="col">Mass</th>
          <th scope="col">Ours, kg</th>
          <th scope="col">Theirs, kg</th>
          <th scope="col">Difference, kg</th>
        </tr>
      </thead>
      <tbody>
        {masses.map((mass) => (
          <tr key={mass.label}>
            <th scope="row">
              <PropellantMark propellant={propellants?.find(({ id }) => id === mass.propellantId)} words={mass.label} />
            </th>
            <td className="figures">{figure(mass.oursKg)}</td>
            <td className="figures">{figure(mass.theirsKg)}</td>
            <td className="figures">{difference(mass)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};
