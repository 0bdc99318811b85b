/** Names that are nearly equal: written otherwise, or with one slip of the pen. They are asked about, never taken for one another. */

/** Words and numbers of a name, without case, accents, signs and leading noughts. */
const partsOf = (name: string): readonly string[] =>
  (
    name
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .toLowerCase()
      .match(/\p{L}+|\p{N}+/gu) ?? []
  ).map((part) => part.replace(/^0+(?=\d)/, ""));

/** Words shorter than this, and numbers, tell things apart: "Drover A" is not "Drover B". */
const LEAST_LETTERS = 4;

/** Whether one letter more, less, another, or two changed about make one of the other. */
const isOneSlip = (a: string, b: string): boolean => {
  if (Math.abs(a.length - b.length) > 1) return false;
  let from = 0;
  while (from < a.length && a[from] === b[from]) from += 1;
  let back = 0;
  while (back < Math.min(a.length, b.length) - from && a.at(-1 - back) === b.at(-1 - back)) back += 1;
  const [restA, restB] = [a.slice(from, a.length - back), b.slice(from, b.length - back)];
  const isSwapped = restA.length === 2 && restA[0] === restB[1] && restA[1] === restB[0];
  return isSwapped || Math.max(restA.length, restB.length) <= 1;
};

/** Whether two different names are so much alike that one may be meant by the other. */
export const isNear = (a: string, b: string): boolean => {
  if (a === b) return false;
  const [left, right] = [partsOf(a), partsOf(b)];
  if (left.length === 0 || right.length === 0) return false;
  if (left.join("") === right.join("")) return true;
  if (left.length !== right.length) return false;
  const other = left.flatMap((part, place) => (part === right[place] ? [] : [[part, right[place] ?? ""] as const]));
  return (
    other.length === 1 &&
    other.every(
      ([one, two]) =>
        Math.max(one.length, two.length) >= LEAST_LETTERS && !/\p{N}/u.test(one + two) && isOneSlip(one, two),
    )
  );
};
