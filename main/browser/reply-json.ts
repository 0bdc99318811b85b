/** A reply as JSON text. JSON would turn NaN and Infinity into null in silence; they are a defect here. */

/** Throws where a number is not finite. */
export const replyJson = (reply: unknown): string =>
  JSON.stringify(reply, (key, value: unknown) => {
    if (typeof value === "number" && !Number.isFinite(value))
      throw new Error(`The answer's number "${key}" is not finite.`);
    return value;
  });
