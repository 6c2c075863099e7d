import type { Parser } from "./parsers.ts";

/** One setting of the server. */
export interface Setting<T> {
  /** The environment variable. */
  readonly name: string;
  readonly fallback: string;
  readonly help: string;
  readonly parse: Parser<T>;
}

/** Declares a setting; its variable is `name` with TIGHTROW_ before it. */
export const setting = <T>(name: string, fallback: string, parse: Parser<T>, help: string): Setting<T> => ({
  name: `TIGHTROW_${name}`,
  fallback,
  parse,
  help,
});
