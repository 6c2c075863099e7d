/** What is typed about a song for a night. */
import { err, ok, type Result } from "../lib/result.ts";

const LEAST = 0.5;
const MOST = 20;

/** Reads a tolerance in percent: `2`, `1,5 %`; empty = the usual one. */
export const readTolerance = (text: string): Result<number | null> => {
  const said = text.trim().replace(",", ".").replace(/\s*%$/, "");
  if (said === "") return ok(null);
  const value = /^\d{1,2}(\.\d{1,2})?$/.test(said) ? Number(said) : Number.NaN;
  return value >= LEAST && value <= MOST
    ? ok(value)
    : err(`A tolerance is a number of percent from ${LEAST} to ${MOST}.`);
};
