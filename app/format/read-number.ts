/** Figures as tables write them: a decimal point or comma, thousands in groups, a minus of either kind. */

export const decimalSigns = ["point", "comma"] as const;
export type DecimalSign = (typeof decimalSigns)[number];

const spaces = /[\s\u00a0\u2007\u2009\u202f]/g;
const FIGURE = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;
const GROUPED_BY_COMMA = /^[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d*)?$/;
const GROUPED_BY_POINT = /^[+-]?[1-9]\d{0,2}(\.\d{3})+(,\d*)?$/;
const GROUPED_BY_SPACE = /^[+-]?\d{1,3}([\s\u00a0\u2007\u2009\u202f'’]\d{3})+([.,]\d*)?$/;

/** The number that the text states; NaN: none. "1,234" is 1234 with a decimal point and 1.234 with a decimal comma. */
export const readNumber = (text: string, decimals: DecimalSign): number => {
  const trimmed = text.trim().replace("\u2212", "-");
  // Nearly every cell is a plain figure.
  if (FIGURE.test(trimmed) && (decimals === "point" || !trimmed.includes("."))) return Number(trimmed);
  const together = GROUPED_BY_SPACE.test(trimmed) ? trimmed.replace(/['’]/g, "").replace(spaces, "") : trimmed;
  if (decimals === "point") {
    const plain = GROUPED_BY_COMMA.test(together) ? together.replaceAll(",", "") : together;
    return FIGURE.test(plain) ? Number(plain) : Number.NaN;
  }
  const plain = (GROUPED_BY_POINT.test(together) ? together.replaceAll(".", "") : together).replace(",", ".");
  return FIGURE.test(plain) && !(together.includes(".") && !GROUPED_BY_POINT.test(together))
    ? Number(plain)
    : Number.NaN;
};

/** The sign that stands last is the decimal sign, unless it stands more than once and so groups thousands. */
const speaksForPoint = (text: string): boolean => {
  const isPointLast = text.lastIndexOf(".") > text.lastIndexOf(",");
  const isGrouping = text.split(isPointLast ? "." : ",").length > 2;
  return isPointLast !== isGrouping;
};

/** Which decimal sign the figures speak for; "either": they are whole; "unclear": 1,234 or 1.234 could be both. */
export const decimalSignOf = (
  texts: Iterable<string>,
  isPartedByComma: boolean,
): DecimalSign | "either" | "unclear" => {
  let points = 0;
  let commas = 0;
  let unclear = 0;
  for (const raw of texts) {
    const text = raw.trim().replace("\u2212", "-").replace(/['’]/g, "").replace(spaces, "");
    if (!/[.,]/.test(text) || !/^[+-]?[\d.,]+(e[+-]?\d+)?$/i.test(text)) continue;
    if (/^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(text)) {
      // A point is the usual decimal sign where a comma parts the cells.
      if (!(text.includes(".") && isPartedByComma)) unclear += 1;
      continue;
    }
    if (speaksForPoint(text)) points += 1;
    else commas += 1;
  }
  if (points > 0 && commas > 0) return "unclear";
  if (points > 0) return "point";
  if (commas > 0) return "comma";
  return unclear > 0 ? "unclear" : "either";
};
