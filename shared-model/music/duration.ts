/** Lengths of songs, always in seconds. */
import { err, ok, type Result } from "../lib/result.ts";

/** Longest song anybody books, in seconds. */
export const LENGTH_MAX = 3600;

const CLOCK = /^(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)$/;
const WORDS =
  /^(?:(\d{1,4})\s*(?:m|min|mins|minutes?|['′])\s*)?(?:(\d{1,4})\s*(?:s|secs?|seconds?|["″])?)?$/i;

/**
 * Reads a song's length as typed: `3:45`, `0:03:45`, `225` (seconds), `3m45s`, `3 min 45`, ISO 8601 `PT3M45S`.
 * Refuses `3.45`, which can mean two lengths, and anything that is not between a second and an hour.
 */
export const parseLength = (text: string): Result<number> => {
  const said = text.trim();
  const seconds = clockSeconds(said) ?? wordSeconds(said) ?? parseIsoDuration(said);
  if (seconds === null) {
    const decimal = /^(\d{1,2})[.,]([0-5]\d)$/.exec(said);
    const hint = decimal ? `Did you mean ${decimal[1]}:${decimal[2]}?` : HOW;
    return err(`"${said.slice(0, 20)}" is not a length. ${hint}`);
  }
  if (seconds <= 0) return err(`A song cannot last 0 seconds. ${HOW}`);
  if (seconds > LENGTH_MAX) return err(`"${said.slice(0, 20)}" is longer than an hour. ${HOW}`);
  return ok(seconds);
};

const HOW = "Write minutes and seconds as 3:45.";

/** `3:45`; from an hour on `1:02:03`. Rounded to whole seconds. */
export const formatLength = (seconds: number): string => {
  const whole = Math.round(seconds);
  const two = (n: number) => String(n).padStart(2, "0");
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor((whole % 3600) / 60);
  return hours > 0 ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
};

const ISO = /^P(?!$)(?:(\d+)W|(?:(\d+)D)?(?:T(?=\d)(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:[.,]\d+)?)S)?)?)$/i;

/** Seconds of an ISO 8601 duration; null for anything else and for years and months, which have no fixed length. */
export const parseIsoDuration = (text: string): number | null => {
  const match = text.length <= 40 ? ISO.exec(text) : null;
  if (!match) return null;
  const [weeks, days, hours, minutes] = match.slice(1, 5).map((digits) => Number(digits ?? 0));
  const seconds = Number((match[5] ?? "0").replace(",", "."));
  return ((((weeks ?? 0) * 7 + (days ?? 0)) * 24 + (hours ?? 0)) * 60 + (minutes ?? 0)) * 60 + seconds;
};

/** ISO 8601, e.g. `PT3M45S`, for exports and machine-readable times. Whole seconds. */
export const formatIsoDuration = (seconds: number): string => {
  const whole = Math.round(seconds);
  const parts = [
    [Math.floor(whole / 3600), "H"],
    [Math.floor((whole % 3600) / 60), "M"],
    [whole % 60, "S"],
  ] as const;
  const written = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count}${unit}`);
  return written.length > 0 ? `PT${written.join("")}` : "PT0S";
};

const clockSeconds = (said: string): number | null => {
  const match = CLOCK.exec(said);
  if (!match) return null;
  const [hours, minutes, seconds] = match.slice(1, 4).map((digits) => Number(digits ?? 0));
  return ((hours ?? 0) * 60 + (minutes ?? 0)) * 60 + (seconds ?? 0);
};

const wordSeconds = (said: string): number | null => {
  const match = said === "" ? null : WORDS.exec(said);
  return match ? Number(match[1] ?? 0) * 60 + Number(match[2] ?? 0) : null;
};
