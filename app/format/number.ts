/** Numbers as the page writes them: thousands with thin spaces, minus as −, a fixed number of decimals. */

/** Thin, and no line may break there. */
export const NARROW_SPACE = "\u202f";
export const MINUS = "\u2212";

const group = (digits: string): string => digits.replace(/\B(?=(\d{3})+$)/g, NARROW_SPACE);

/** `12 345.6`; a value that rounds to zero has no minus sign. Not a finite number: "–". */
export const formatNumber = (value: number, decimals = 0): string => {
  if (!Number.isFinite(value)) return "–";
  const [whole = "0", part] = Math.abs(value).toFixed(decimals).split(".");
  const isZero = /^0*$/.test(whole + (part ?? ""));
  const sign = value < 0 && !isZero ? MINUS : "";
  return `${sign}${group(whole)}${part === undefined ? "" : `.${part}`}`;
};

/** With its sign written out: `+1.2`, `−0.4`, `0.0`. */
export const formatSigned = (value: number, decimals = 0): string => {
  const text = formatNumber(value, decimals);
  return value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
};

/** `12.5 %` */
export const formatPercent = (value: number, decimals = 1): string =>
  `${formatNumber(value, decimals)}${NARROW_SPACE}%`;

/** Of full width, and no line may break there. */
const WHOLE_SPACE = "\u00a0";

/** A number and its unit with a thin space between; before a word ("days") a whole one. */
export const withUnit = (text: string, unit: string): string =>
  `${text}${/^(?:day$|[a-z]{4})/.test(unit) ? WHOLE_SPACE : NARROW_SPACE}${unit}`;
