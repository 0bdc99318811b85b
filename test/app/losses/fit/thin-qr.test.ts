/** The QR of a tall matrix beside that of a library, and what makes it one. */
import { Matrix, QrDecomposition } from "ml-matrix";
import { expect, test } from "vitest";
import { thinQr } from "../../../../app/losses/fit/thin-qr.ts";

const columns = [1, 2, 3].map((seed) =>
  Float64Array.from({ length: 40 }, (_, i) => Math.sin(seed * (i + 1) * 1.3) + seed),
);

test("Q and R are those of a library but for the signs of columns, which are free", () => {
  const { q, r } = thinQr(columns);
  const library = new QrDecomposition(
    new Matrix(40, 3).setSubMatrix(new Matrix(columns.map((c) => [...c])).transpose(), 0, 0),
  );
  const [wantedQ, wantedR] = [library.orthogonalMatrix, library.upperTriangularMatrix];
  for (const [j, column] of q.entries()) {
    const sign = Math.sign(r.get(j, j)) * Math.sign(wantedR.get(j, j));
    for (const [i, value] of column.entries()) expect(value).toBeCloseTo(sign * wantedQ.get(i, j), 12);
    for (let k = j; k < 3; k++) expect(r.get(j, k)).toBeCloseTo(sign * wantedR.get(j, k), 12);
  }
});

test("a column that follows from another leaves nothing on the diagonal", () => {
  const [first = new Float64Array()] = columns;
  const { r } = thinQr([first, first.map((value) => 2 * value)]);
  expect(Math.abs(r.get(1, 1))).toBeLessThan(1e-12);
});
