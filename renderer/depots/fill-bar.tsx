/** How full a tank is: a bar with its heel hatched and its reserve marked. */
import type { Tank } from "../../app/entity/tank.ts";
import { formatNumber } from "../format/number.ts";
import "./depots.css";

interface FillBarProps {
  readonly tank: Tank;
  readonly levelKg: number;
  readonly position: number | undefined;
}

const percentOf = (massKg: number, wholeKg: number): string => `${Math.min(100, (100 * massKg) / wholeKg)}%`;

export const FillBar = ({ tank, levelKg, position }: FillBarProps) => {
  const { maximumFillKg: most } = tank;
  if (most === 0) return null;
  return (
    <span className="fill">
      <span className="fill-bar" aria-hidden="true">
        <span
          className="fill-level"
          style={{ inlineSize: percentOf(levelKg, most), background: `var(--propellant-${(position ?? 5) % 6})` }}
        />
        {tank.heelKg > 0 && <span className="fill-heel" style={{ inlineSize: percentOf(tank.heelKg, most) }} />}
        {tank.reserveKg > 0 && (
          <span className="fill-reserve" style={{ insetInlineStart: percentOf(tank.reserveKg, most) }} />
        )}
      </span>
      <span className="figures">
        {formatNumber((100 * levelKg) / most, 0)}
        {"\u202f"}%
      </span>
    </span>
  );
};
