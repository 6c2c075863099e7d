import { foldText } from "../lib/fold-text.ts";
import { err, ok, type Result } from "../lib/result.ts";
import type { Place, Where } from "./card.ts";
import type { Section } from "./song.ts";

/** Longest place anybody types, in characters. */
const TEXT_MAX = 500;
/** No metre in use counts more; no form comes round more often; no version of a song lasts ten hours. */
const BEAT_MAX = 32;
const PASS_MAX = 99;
const CLOCK_MAX = 36_000;

/**
 * Reads a place as players say it, against the song's form in playing order. Upper and lower case, accents and
 * kinds of dash make no difference; `Verse 2` finds `V2`. Empty text means the whole song.
 * Refuses with one sentence that says what is there instead.
 */
export const parseWhere = (text: string, sections: readonly Section[]): Result<Where> => {
  if (text.length > TEXT_MAX) return err(`A place is at most ${TEXT_MAX} characters long.`);
  const readings = splitSuffix(foldText(text));
  // These words always mean the whole song; a section called so is reached in quotes.
  const whole = readings.find(({ body }) => WHOLE.test(body));
  if (whole) return check(whole.suffix, sections);
  for (const { body, suffix } of readings) {
    const stretch = readStretch(body, sections);
    if (stretch) return check({ ...stretch, ...suffix }, sections);
  }
  return err(notFound(text.trim(), sections));
};

type Suffix = Pick<Where, "pass" | "clock">;

const WHOLE = /^(?:(?:the )?whole(?: song)?)?$/;
const PASS = /^(?:(.*) )?(\d{1,3})(?:st|nd|rd|th) (?:time|pass)(?: only)?$/;
const CLOCK_END = /^(.*?) ?(?:at |@ ?)?(\d{1,3}:[0-5]\d(?:\.\d{1,3})?)$/;

/** The least cut reading comes first, so that a section called `Tag 2nd time` is found by its name. */
const splitSuffix = (said: string): readonly { body: string; suffix: Suffix }[] => {
  const readings: { body: string; suffix: Suffix }[] = [{ body: said, suffix: {} }];
  for (const reading of readings) {
    const { body, suffix } = reading;
    const pass = PASS.exec(body);
    if (pass && suffix.pass === undefined) {
      readings.push({ body: pass[1] ?? "", suffix: { ...suffix, pass: Number(pass[2]) } });
    }
    const clock = CLOCK_END.exec(body);
    if (clock && suffix.clock === undefined) {
      readings.push({ body: clock[1] ?? "", suffix: { ...suffix, clock: seconds(clock[2] ?? "") } });
    }
  }
  return readings;
};

/** Through whole milliseconds, so that the number is the nearest one to what is written. */
const seconds = (clock: string): number => {
  const [minutes = "", rest = ""] = clock.split(":");
  return Math.round(Number(minutes) * 60_000 + Number(rest) * 1000) / 1000;
};

const readStretch = (body: string, sections: readonly Section[]): Where | null => {
  const place = readPlace(body, sections);
  if (place) return { from: place };
  for (let cut = body.indexOf("-"); cut >= 0; cut = body.indexOf("-", cut + 1)) {
    const from = readPlace(body.slice(0, cut).trim(), sections);
    const to = from && readEnd(body.slice(cut + 1).trim(), from, sections);
    if (from && to) return { from, to };
  }
  return null;
};

const BEAT = String.raw`(?:beat|bt) ?(\d{1,3})(\.5|-?and|\+|&)?`;
const BAR = String.raw`(?:bars?|measures?|b\.?|m\.?) ?(\d{1,5})`;
const INSIDE = new RegExp(`^(?:(.*?) ?)(?:${BAR}(?:,? ?${BEAT})?|${BEAT})$`);

const readPlace = (said: string, sections: readonly Section[]): Place | null => {
  const whole = findSection(said, sections);
  if (whole) return { section: whole.id };
  const inside = INSIDE.exec(said);
  const section = inside && findSection(inside[1] ?? "", sections);
  return section ? { section: section.id, ...position(inside) } : null;
};

const position = (inside: RegExpExecArray): Omit<Place, "section"> => {
  const [, , bar, barBeat, barHalf, beat, half] = inside;
  const count = barBeat ?? beat;
  return {
    ...(bar === undefined ? {} : { bar: Number(bar) }),
    ...(count === undefined ? {} : { beat: Number(count) + ((barHalf ?? half) ? 0.5 : 0) }),
  };
};

const BARE = /^(\d{1,5})(\.5|-?and|\+|&)?$/;

/** The end of a stretch may leave out what it shares with the start: `V2 b1-8`, `Bridge b8 beat 3-4`. */
const readEnd = (said: string, from: Place, sections: readonly Section[]): Place | null => {
  const named = readPlace(said, sections);
  if (named) return named;
  const inside = INSIDE.exec(said);
  if (inside && (inside[1] ?? "") === "") {
    const end = position(inside);
    const bar = end.bar ?? from.bar;
    return { section: from.section, ...(bar === undefined ? {} : { bar }), ...end };
  }
  const bare = BARE.exec(said);
  if (!bare) return null;
  const count = Number(bare[1]);
  if (from.beat !== undefined) return { ...from, beat: count + (bare[2] ? 0.5 : 0) };
  return from.bar === undefined || bare[2] ? null : { section: from.section, bar: count };
};

/** A form is immutable and asked about for each of its cards, so its names are folded once. */
const folded = new WeakMap<readonly Section[], readonly string[]>();

const foldedNames = (sections: readonly Section[]): readonly string[] => {
  const known = folded.get(sections);
  if (known) return known;
  const names = sections.map((section) => foldText(section.name));
  folded.set(sections, names);
  return names;
};

const QUOTED = /^"((?:[^"]|"")*)"(?: \((\d{1,4})\))?$/;

const findSection = (said: string, sections: readonly Section[]): Section | null => {
  const quoted = QUOTED.exec(said);
  if (!quoted && (said === "" || said.startsWith('"'))) return null;
  const name = quoted ? foldText((quoted[1] ?? "").replaceAll('""', '"')) : said;
  const names = foldedNames(sections);
  const namesakes = sections.filter((_, index) => names[index] === name);
  if (quoted?.[2]) return namesakes[Number(quoted[2]) - 1] ?? null;
  const [only] = namesakes.length > 0 || quoted ? namesakes : byShortName(name, sections);
  return only ?? null;
};

const SHORT: readonly (readonly [RegExp, string])[] = [
  [/^(?:verse|vs)/, "v"],
  [/^pre-?chorus/, "pre"],
  [/^(?:chorus|chor)/, "ch"],
  [/^introduction/, "intro"],
];

/** `Verse 2` and `V2` are one name to a player; used only where no section carries the very name. */
const byShortName = (name: string, sections: readonly Section[]): readonly Section[] => {
  const short = shortName(name);
  const matches =
    short === "" ? [] : sections.filter((section) => shortName(foldText(section.name)) === short);
  return matches.length === 1 ? matches : [];
};

const shortName = (name: string): string =>
  SHORT.reduce((short, [long, brief]) => short.replace(long, brief), name.replaceAll(" ", ""));

const check = (where: Where, sections: readonly Section[]): Result<Where> => {
  const { from, to, pass = 1, clock = 0 } = where;
  if (pass < 1) return err("Times are counted from 1: write `1st time` for the first.");
  if (pass > PASS_MAX) return err(`A section comes round at most ${PASS_MAX} times.`);
  if (clock > CLOCK_MAX) return err(`A time into the song is at most ${CLOCK_MAX / 60}:00.`);
  for (const place of [from, to]) {
    const wrong = place && wrongPosition(place, sections);
    if (wrong) return err(wrong);
  }
  if (!from || !to) return ok(where);
  const index = (place: Place) => sections.findIndex(({ id }) => id === place.section);
  const order = [
    index(from) - index(to),
    (from.bar ?? 0) - (to.bar ?? 1e6),
    (from.beat ?? 0) - (to.beat ?? 1e6),
  ];
  const turn = order.find((step) => step !== 0) ?? 0;
  if (turn > 0) return err("The end comes before the start: write the earlier place first.");
  const single = from.section === to.section && from.bar === to.bar && from.beat === to.beat;
  const { to: _, ...start } = where;
  return ok(single ? start : where);
};

const wrongPosition = (place: Place, sections: readonly Section[]): string | null => {
  const section = sections.find(({ id }) => id === place.section);
  const { bar = 1, beat = 1 } = place;
  if (bar < 1 || beat < 1) return "Bars and beats are counted from 1.";
  if (beat > BEAT_MAX) return `A bar has at most ${BEAT_MAX} beats.`;
  if (section && bar > section.bars) {
    const count = section.bars === 1 ? "1 bar" : `${section.bars} bars`;
    return `${section.name} has ${count}, so there is no bar ${bar}.`;
  }
  return null;
};

const SHOWN = 60;

const notFound = (said: string, sections: readonly Section[]): string => {
  const shown = said.length > SHOWN ? `${said.slice(0, SHOWN)}…` : said;
  if (sections.length === 0) {
    return `"${shown}" names no place yet: this song has no sections. Add its form, or write a time such as 1:42.`;
  }
  const names = sections.map(({ name }) => name).join(", ");
  return `"${shown}" is not a place in this song. Its sections are ${names}; add a bar as in "${sections[0]?.name} b1".`;
};
