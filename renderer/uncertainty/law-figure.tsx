/** The shape of a distribution in a table's row; what it means stands in words beside it. */
import type { Uncertainty } from "../../app/entity/risk-input.ts";
import { lawShape } from "./law-shape.ts";

const WIDTH = 96;
const HEIGHT = 22;
/** Where the upright of those without any of it stands. */
const NONE = 6;

export const LawFigure = ({ uncertainty }: { uncertainty: Uncertainty }) => {
  const shape = lawShape(uncertainty);
  if (shape === null) return <span className="risk-law-none">–</span>;
  const { bars, noneShare, low, high } = shape;
  const left = noneShare > 0 ? NONE + 4 : 0;
  const step = (WIDTH - left) / bars.length;
  return (
    <span className="risk-law">
      <svg width={WIDTH} height={HEIGHT} viewBox={`0 0 ${String(WIDTH)} ${String(HEIGHT)}`} aria-hidden="true">
        {noneShare > 0 && (
          <rect
            className="risk-law-still"
            x={0}
            y={HEIGHT * (1 - noneShare)}
            width={NONE}
            height={HEIGHT * noneShare}
          />
        )}
        {bars.map((share, index) => (
          <rect
            // eslint-disable-next-line react/no-array-index-key -- a bar is its place
            key={index}
            className="risk-law-bar"
            x={left + index * step}
            y={HEIGHT * (1 - share)}
            width={Math.max(0.5, step - 0.5)}
            height={HEIGHT * share}
          />
        ))}
        <line className="risk-law-base" x1={0} y1={HEIGHT - 0.5} x2={WIDTH} y2={HEIGHT - 0.5} />
      </svg>
      <span className="risk-law-range figures">
        {low} … {high}
      </span>
    </span>
  );
};
