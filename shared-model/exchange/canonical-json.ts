import type { Json } from "../document/board-document.ts";

/** Deepest nesting exchanged; nothing of ours goes past five. */
export const DEPTH_MAX = 64;

/**
 * JSON with the keys of every object in code-unit order, so that equal values are written alike (after RFC 8785,
 * except that minus zero keeps its sign). Null for what JSON cannot say: undefined, bytes, functions, numbers
 * that are not finite, objects with a prototype of their own, nesting deeper than `DEPTH_MAX`.
 */
export const canonicalJson = (value: unknown, depth = 0): string | null => {
  if (value === null || typeof value === "boolean" || typeof value === "string") return JSON.stringify(value);
  if (typeof value === "number") return writeNumber(value);
  if (typeof value !== "object" || depth >= DEPTH_MAX) return null;
  if (Array.isArray(value))
    return wrap(
      "[",
      "]",
      Array.from(value, (item) => canonicalJson(item, depth + 1)),
    );
  if (!isPlain(value)) return null;
  const members = Object.entries(value)
    .sort(byKey)
    .map(([key, item]) => {
      const written = canonicalJson(item, depth + 1);
      return written === null ? null : `${JSON.stringify(key)}:${written}`;
    });
  return wrap("{", "}", members);
};

/** Orders entries by key, by code unit. */
export const byKey = ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number =>
  a < b ? -1 : Number(a > b);

/**
 * Why a parsed value cannot go into a document, as the end of a sentence; null = it can.
 * `__proto__` as a name inside a value would become the value's prototype on the way to other devices.
 */
export const whyNotStorable = (value: Json, depth = 0): string | null => {
  if (typeof value === "number" && !Number.isFinite(value)) return "has a number too large to store";
  if (typeof value !== "object" || value === null) return null;
  if (depth >= DEPTH_MAX) return `is nested deeper than ${DEPTH_MAX} levels`;
  for (const [key, item] of Object.entries(value)) {
    const why =
      key === "__proto__" ? "uses the name __proto__, which is not allowed" : whyNotStorable(item, depth + 1);
    if (why !== null) return why;
  }
  return null;
};

const writeNumber = (value: number): string | null => {
  if (!Number.isFinite(value)) return null;
  return Object.is(value, -0) ? "-0" : JSON.stringify(value);
};

const isPlain = (value: object): boolean => {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
};

const wrap = (open: string, close: string, parts: readonly (string | null)[]): string | null =>
  parts.includes(null) ? null : `${open}${parts.join(",")}${close}`;
