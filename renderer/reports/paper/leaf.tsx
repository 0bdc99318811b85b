/** What stands on one page: the pieces, with rows gathered into tables and items into lists. */
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { ReactNode } from "react";
import { PictureView } from "./picture-view.tsx";
import type { Piece } from "./pieces.ts";

/** Gathers neighbours that make up one table or one list. */
const gather = (pieces: readonly Piece[]): readonly (readonly Piece[])[] => {
  const groups: Piece[][] = [];
  for (const piece of pieces) {
    const last = groups.at(-1)?.at(-1);
    if (last !== undefined && belongs(last, piece)) groups.at(-1)?.push(piece);
    else groups.push([piece]);
  }
  return groups;
};

const belongs = (last: Piece, next: Piece): boolean =>
  (next.kind === "fact" && last.kind === "fact" && last.list === next.list) ||
  (next.kind === "item" && last.kind === "item" && last.list === next.list) ||
  (next.kind === "row" && (last.kind === "row" || last.kind === "head") && last.tableId === next.tableId);

/** Every piece's element carries `data-piece`, in order: that is how pieces are measured. */
export const Leaf = ({ pieces }: { pieces: readonly Piece[] }) =>
  gather(pieces).map((group, index) => (
    // eslint-disable-next-line react/no-array-index-key -- a leaf is replaced whole
    <Group key={index} pieces={group} />
  ));

const Group = ({ pieces }: { pieces: readonly Piece[] }): ReactNode => {
  const [first] = pieces;
  if (first === undefined) return null;
  switch (first.kind) {
    case "title":
      return (
        <header data-piece className="leaf-title">
          <h2>{first.title}</h2>
          <p>{first.subtitle}</p>
        </header>
      );
    case "heading":
      return (
        <h3 data-piece className="leaf-heading" data-section={first.sectionId}>
          {first.text}
        </h3>
      );
    case "paragraph":
      return (
        <p data-piece className="leaf-text">
          {first.text}
        </p>
      );
    case "caution":
      return (
        <p data-piece className="leaf-text leaf-caution">
          {first.text}
        </p>
      );
    case "verdict":
      return (
        <div data-piece className={first.holds ? "leaf-verdict" : "leaf-verdict leaf-verdict-fails"}>
          <p>
            <strong>{first.word}</strong>
            {first.sentence}
          </p>
          {first.chance !== undefined && (
            <p className="leaf-chance">
              <b>{first.chance.figure}</b> {first.chance.words}
            </p>
          )}
        </div>
      );
    case "fact":
      return <FactList facts={pieces} />;
    case "chart":
      return (
        <figure data-piece className="leaf-figure">
          <figcaption>{first.chart.caption}</figcaption>
          <PictureView picture={first.chart.picture} label={`${first.chart.caption}. ${first.chart.description}`} />
        </figure>
      );
    case "item":
      return <ItemList items={pieces} />;
    case "head":
    case "row":
      return <TablePart pieces={pieces} />;
    default:
      return missingCase(first);
  }
};

const FactList = ({ facts }: { facts: readonly Piece[] }) => (
  <dl className="leaf-facts">
    {facts.map(
      (piece, index) =>
        piece.kind === "fact" && (
          // eslint-disable-next-line react/no-array-index-key -- a leaf is replaced whole
          <div data-piece key={index}>
            <dt>{piece.fact.term}</dt>
            <dd>{piece.fact.text}</dd>
          </div>
        ),
    )}
  </dl>
);

const ItemList = ({ items }: { items: readonly Piece[] }) => (
  <ul className="leaf-list">
    {items.map(
      (item, index) =>
        item.kind === "item" && (
          // eslint-disable-next-line react/no-array-index-key -- a leaf is replaced whole
          <li data-piece key={index}>
            {item.text}
          </li>
        ),
    )}
  </ul>
);

const TablePart = ({ pieces }: { pieces: readonly Piece[] }) => {
  const [first] = pieces;
  if (first === undefined || (first.kind !== "head" && first.kind !== "row")) return null;
  return (
    <table className="leaf-table">
      <colgroup>
        {first.shares.map((share, index) => (
          // eslint-disable-next-line react/no-array-index-key -- columns have no other name, and stay in their order
          <col key={index} style={{ width: `${100 * share}%` }} />
        ))}
      </colgroup>
      {first.kind === "head" && (
        <thead data-piece>
          {first.caption !== null && (
            <tr className="leaf-caption">
              <td colSpan={first.columns.length}>{first.caption}</td>
            </tr>
          )}
          <tr>
            {first.names.map((name, index) => (
              // eslint-disable-next-line react/no-array-index-key -- as above
              <th key={index} scope="col" className={first.columns[index]?.align === "end" ? "leaf-end" : undefined}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
      )}
      <tbody>
        {pieces.map(
          (piece, row) =>
            piece.kind === "row" && (
              // eslint-disable-next-line react/no-array-index-key -- as above
              <tr data-piece key={row} className={piece.mark === null ? undefined : `leaf-row-${piece.mark}`}>
                {piece.cells.map((cell, index) => (
                  // eslint-disable-next-line react/no-array-index-key -- as above
                  <td key={index} className={piece.columns[index]?.align === "end" ? "leaf-end" : undefined}>
                    {cell}
                  </td>
                ))}
              </tr>
            ),
        )}
      </tbody>
    </table>
  );
};
