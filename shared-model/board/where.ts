/**
 * Places in a song, said as players say them: `Outro b8`, `V2 b1-b8`, `Ch1-Ch3`, `Ch2 2nd time`, `1:42`, `whole`.
 * Governing rule: what `formatWhere` prints, `parseWhere` (parse-where.ts) reads back as the same place.
 */

import { foldText } from "../lib/fold-text.ts";
import type { Place, Where } from "./card.ts";
import { parseWhere } from "./parse-where.ts";
import type { Section } from "./song.ts";

/** What is printed for a section that has been taken out of the form. */
export const GONE_SECTION = "a section that is gone";

/**
 * Says where a detail applies. `sections` is the song's form in playing order.
 * A section name that could be misread (it looks like a bar, or two sections share it) is put in quotes.
 */
export const formatWhere = (where: Where, sections: readonly Section[]): string => {
  const plain = written(where, sections, PLAIN);
  const back = parseWhere(plain, sections);
  return back.ok && sameWhere(back.value, where) ? plain : written(where, sections, QUOTED);
};

/**
 * Playing order for sorting cards: the whole song first, then by section, pass, bar and beat, wider stretches
 * before narrower ones; places known only by the clock follow, by time; sections that are gone come last.
 * Negative when `a` comes first, 0 when neither does.
 */
export const compareWhere = (a: Where, b: Where, sections: readonly Section[]): number => {
  const left = sortKey(a, sections);
  const right = sortKey(b, sections);
  for (const [index, value] of left.entries()) {
    const other = right[index] ?? 0;
    if (value !== other) return value < other ? -1 : 1;
  }
  return 0;
};

/** True when both name the same place. */
export const sameWhere = (a: Where, b: Where): boolean =>
  samePlace(a.from, b.from) && samePlace(a.to, b.to) && a.pass === b.pass && a.clock === b.clock;

const samePlace = (a: Place | undefined, b: Place | undefined): boolean =>
  a === b ||
  (a !== undefined && b !== undefined && a.section === b.section && a.bar === b.bar && a.beat === b.beat);

const WHOLE = 0;
const IN_FORM = 1;
const BY_CLOCK = 2;
const GONE = 3;

const sortKey = (where: Where, sections: readonly Section[]): readonly number[] => {
  const { from, pass = 0, clock = 0 } = where;
  if (!from) return [where.clock === undefined ? WHOLE : BY_CLOCK, clock, pass];
  const start = sections.findIndex((section) => section.id === from.section);
  const end = where.to ?? from;
  const last = sections.findIndex((section) => section.id === end.section);
  return [
    start < 0 ? GONE : IN_FORM,
    start,
    pass,
    from.bar ?? 0,
    from.beat ?? 0,
    -last,
    -(end.bar ?? Number.MAX_SAFE_INTEGER),
    -(end.beat ?? Number.MAX_SAFE_INTEGER),
    clock,
  ];
};

/** How places are written: `short` leaves out of an end what it shares with the start. */
interface Style {
  readonly short: boolean;
  readonly name: (section: Section, sections: readonly Section[]) => string;
}

const PLAIN: Style = { short: true, name: (section) => section.name.trim() };

const QUOTED: Style = {
  short: false,
  name: (section, sections) => {
    const folded = foldText(section.name);
    const namesakes = sections.filter((other) => foldText(other.name) === folded);
    const quoted = `"${[...section.name].map((c) => (foldText(c) === '"' ? '""' : c)).join("")}"`;
    return namesakes.length > 1 ? `${quoted} (${namesakes.indexOf(section) + 1})` : quoted;
  },
};

const written = (where: Where, sections: readonly Section[], style: Style): string => {
  const { from, to, pass, clock } = where;
  const name = (place: Place): string => {
    const section = sections.find(({ id }) => id === place.section);
    return section ? style.name(section, sections) : GONE_SECTION;
  };
  const parts: string[] = [];
  if (from) parts.push(stretch(from, to, name, style.short));
  else if (clock === undefined) parts.push("whole");
  if (pass !== undefined) parts.push(`${ordinal(pass)} time`);
  if (clock !== undefined) parts.push(from ? `at ${clockTime(clock)}` : clockTime(clock));
  return parts.join(" ");
};

const stretch = (
  from: Place,
  to: Place | undefined,
  name: (place: Place) => string,
  short: boolean,
): string => {
  const start = `${name(from)}${within(from)}`;
  if (!to) return start;
  const shared = short && from.section === to.section;
  if (shared && from.bar === to.bar && from.beat !== undefined && to.beat !== undefined) {
    return `${start}-${beatName(to.beat)}`;
  }
  const sayBarOnly = shared && from.bar !== undefined && to.bar !== undefined;
  return `${start}-${sayBarOnly ? within(to).trim() : `${name(to)}${within(to)}`}`;
};

const within = ({ bar, beat }: Place): string =>
  `${bar === undefined ? "" : ` b${bar}`}${beat === undefined ? "" : ` beat ${beatName(beat)}`}`;

/** Halves of a beat are said `4-and`. */
const beatName = (beat: number): string => (beat % 1 === 0.5 ? `${Math.floor(beat)}-and` : `${beat}`);

const ordinal = (n: number): string => {
  const teen = n % 100 >= 11 && n % 100 <= 13;
  const ending = teen ? "th" : (["th", "st", "nd", "rd"][n % 10] ?? "th");
  return `${n}${ending}`;
};

/** Minutes and seconds, to the millisecond where there is a fraction: `1:42`, `1:42.5`. */
const clockTime = (seconds: number): string => {
  const ms = Math.round(seconds * 1000);
  const rest = ((ms % 60_000) / 1000)
    .toFixed(3)
    .padStart(6, "0")
    .replace(/\.?0+$/, "");
  return `${Math.floor(ms / 60_000)}:${rest.padStart(2, "0")}`;
};
