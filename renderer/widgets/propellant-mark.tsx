/** A propellant's name with a stroke of its colour; the colour never stands alone. */
import type { Propellant } from "../../app/entity/propellant.ts";
import "./marks.css";

interface PropellantMarkProps {
  readonly propellant: Pick<Propellant, "name" | "position"> | undefined;
  readonly words?: string;
}

export const PropellantMark = ({ propellant, words }: PropellantMarkProps) => (
  <span className="propellant-mark">
    <span
      className="propellant-stroke"
      style={{ background: `var(--propellant-${(propellant?.position ?? 5) % 6})` }}
      aria-hidden="true"
    />
    <span className="propellant-words">{words ?? propellant?.name ?? "unknown propellant"}</span>
  </span>
);
