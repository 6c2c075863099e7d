import { err, ok, type Result } from "../lib/result.ts";

/** One stretch of a form as typed. */
export interface TypedSection {
  readonly name: string;
  readonly bars: number;
  /** Written where it is played more than once in a row, 2 to 9. */
  readonly repeats?: number;
}

const SECTIONS_MAX = 100;
const NAME_MAX = 200;
const BARS_MAX = 999;
const REPEATS_MAX = 9;
const SEPARATOR = /[,;\n\t]+/;
/** A name, something between, the bars and how often; a sign is read so that it can be refused in words. */
const PART =
  /^(.*?)(?:\s+|\s*[·:×=(]\s*)([+−-]?\d+(?:[.,]\d+)?)\s*(?:bars?\s*)?\)?(?:\s*(?:x|×\s*)(\d+))?$/iu;

/**
 * Reads sections typed in a row: `Intro 8, V1 16, Ch1 8`. Commas, semicolons, tabs or lines stand between them; the
 * bars come last (`V1 16`, `V1·16`, `V1: 16 bars`), and how often behind them (`V1 16 x2`). Refuses with one sentence that names the part that is wrong.
 */
export const parseForm = (text: string): Result<readonly TypedSection[]> => {
  const parts = text
    .split(SEPARATOR)
    .map((part) => part.trim().replace(/\s+/g, " "))
    .filter((part) => part !== "");
  if (parts.length === 0) return err("Write each section with its bars, as in “Intro 8, V1 16, Ch1 8”.");
  if (parts.length > SECTIONS_MAX) return err(`Write at most ${SECTIONS_MAX} sections at a time.`);
  const sections: TypedSection[] = [];
  for (const [index, part] of parts.entries()) {
    const read = readPart(part);
    if (!read.ok) return err(`Part ${index + 1}, “${shown(part)}”: ${read.error}`);
    sections.push(read.value);
  }
  return ok(sections);
};

const readPart = (part: string): Result<TypedSection> => {
  const match = PART.exec(part);
  const name = match?.[1]?.trim() ?? "";
  if (match === null && /^[+−-]?\d/.test(part)) return err("name the section before its bars.");
  if (match === null) return err(`say how many bars it has, as in “${shown(part)} 8”.`);
  if (name === "") return err("name the section before its bars.");
  if (name.length > NAME_MAX) return err(`a name has at most ${NAME_MAX} characters.`);
  const bars = Number((match[2] ?? "").replace("−", "-").replace(",", "."));
  const counts = Number.isInteger(bars) && bars >= 1 && bars <= BARS_MAX;
  if (!counts) return err(`bars are a whole number from 1 to ${BARS_MAX}.`);
  const repeats = Number(match[3] ?? 1);
  if (repeats < 1 || repeats > REPEATS_MAX) return err(`it comes from 1 to ${REPEATS_MAX} times in a row.`);
  return ok(repeats === 1 ? { name, bars } : { name, bars, repeats });
};

const SHOWN = 40;
const shown = (part: string): string => (part.length > SHOWN ? `${part.slice(0, SHOWN)}…` : part);
