/**
 * Plain data as JSON text that keeps typed arrays what they are: a Float64Array written by JSON alone would come back as
 * a group of fields named "0", "1", "2". Their numbers cross bit for bit, NaN and infinite ones too. A plain number that
 * is not finite is a defect and is refused by name.
 */
import { bytesToBase64, base64ToBytes } from "./base64.ts";

const arrayTypes = {
  Float64Array,
  Float32Array,
  Int8Array,
  Int16Array,
  Int32Array,
  Uint8Array,
  Uint8ClampedArray,
  Uint16Array,
  Uint32Array,
  BigInt64Array,
  BigUint64Array,
} as const;
type ArrayName = keyof typeof arrayTypes;

/** The key that marks a typed array; no plain data of ours has it, and what has is refused. */
const MARK = "$array";

const isArrayName = (name: unknown): name is ArrayName => typeof name === "string" && Object.hasOwn(arrayTypes, name);

const written = (key: string, value: unknown): unknown => {
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new Error(`The answer's number "${key}" is not finite.`);
    return value;
  }
  if (typeof value !== "object" || value === null) return value;
  if (ArrayBuffer.isView(value)) {
    const name = value.constructor.name;
    if (!isArrayName(name)) throw new Error(`The answer's "${key}" is no array that can be sent.`);
    return { [MARK]: name, base64: bytesToBase64(new Uint8Array(value.buffer, value.byteOffset, value.byteLength)) };
  }
  if (MARK in value) throw new Error(`The answer's "${key}" has a field "${MARK}", which stands for something else.`);
  return value;
};

const read = (_key: string, value: unknown): unknown => {
  if (typeof value !== "object" || value === null || !(MARK in value)) return value;
  const { [MARK]: name, base64 } = value as Record<string, unknown>;
  if (!isArrayName(name) || typeof base64 !== "string") return value;
  const bytes = base64ToBytes(base64);
  return new arrayTypes[name](bytes.buffer);
};

/** Throws where a number is not finite, or something is not plain data. */
export const toTypedJson = (value: unknown): string => JSON.stringify(value, written);

/** Throws where the text is not JSON. */
export const fromTypedJson = (text: string): unknown => JSON.parse(text, read);
