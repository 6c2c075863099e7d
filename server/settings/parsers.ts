import { err, ok, type Result } from "#shared/lib/result.ts";

/** Reads a setting's text; a refusal is the end of the sentence "NAME …". */
export type Parser<T> = (text: string) => Result<T>;

/** A whole number from `min` to `max`. */
export const wholeNumber =
  (min: number, max: number): Parser<number> =>
  (text) => {
    const value = /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN;
    return value >= min && value <= max ? ok(value) : err(`must be a whole number from ${min} to ${max}`);
  };

export const onOrOff: Parser<boolean> = (text) =>
  text === "on" || text === "off" ? ok(text === "on") : err("must be on or off");

export const anyText: Parser<string> = (text) => ok(text);

export const oneOf =
  <const T extends string>(words: readonly T[]): Parser<T> =>
  (text) => {
    const word = words.find((candidate) => candidate === text);
    return word === undefined ? err(`must be one of ${words.join(", ")}`) : ok(word);
  };

/** An origin such as `https://board.example.org`; null for an empty text. */
export const originOrNone: Parser<string | null> = (text) => {
  if (text === "") return ok(null);
  const origin = originOf(text);
  return origin === null ? err("must look like https://board.example.org") : ok(origin);
};

/** Origins separated by commas. */
export const origins: Parser<readonly string[]> = (text) => {
  const found: string[] = [];
  for (const part of text.split(",").map((piece) => piece.trim())) {
    if (part === "") continue;
    const origin = originOf(part);
    if (origin === null) return err(`must be origins such as https://board.example.org, not ${part}`);
    found.push(origin);
  }
  return ok(found);
};

/** Scheme, host and port; null for what is no http(s) address or has more than a bare slash behind its host. */
const originOf = (text: string): string | null => {
  if (!URL.canParse(text)) return null;
  const url = new URL(text);
  const bare = url.pathname === "/" && url.search === "" && url.hash === "" && url.username === "";
  return bare && /^https?:$/.test(url.protocol) ? url.origin : null;
};
