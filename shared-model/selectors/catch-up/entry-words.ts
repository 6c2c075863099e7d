/** Entries of facts as people say them. */
import type { Board, SongFile } from "../../board/board.ts";
import { type Card, SIDE_NAMES, type Where } from "../../board/card.ts";
import { readSide, sideWords } from "../../board/sides/detail-sides.ts";
import type { SideNames } from "../../board/sides/side-words.ts";
import { LEVEL_WORDS, type Level } from "../../board/status.ts";
import type { TextureChange } from "../../board/texture.ts";
import { formatWhere } from "../../board/where.ts";
import { isDay } from "../../lib/calendar.ts";
import { dayWords } from "../../lib/day-words.ts";
import { formatLength } from "../../music/duration.ts";
import { capital, listed, namesOf } from "../../readiness/names.ts";
import { CONSTANTS } from "../constants.ts";
import { playedWords } from "../texture-words.ts";

/** Says one value; null = it cannot be said in a few words. */
export type Say = (value: unknown) => string | null;

const asText: Say = (value) =>
  typeof value === "string" || typeof value === "number" ? String(value) : value === true ? "yes" : null;

const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** `Verse 8, Refrain 16`. */
const sayForm: Say = (value) =>
  listOf(value)
    .map((section) => listOf(section).slice(0, 2).join(" "))
    .join(", ");

/** `Verse 1: rests · Chorus 1: plays full`; sections that are gone are left out. */
const sayTexture =
  (file: SongFile | undefined): Say =>
  (value) =>
    listOf(value)
      .flatMap((said) => {
        const [id, changes] = listOf(said);
        const section = file?.sections.find((one) => one.id === id);
        if (section === undefined) return [];
        const read = listOf(changes).map((change) => ({ pass: null, ...Object(change) }) as TextureChange);
        return [`${section.name}: ${playedWords(read, section.bars)}`];
      })
      .join(" · ");

/** One sentence a side: `Gain 6 of 10. Fades out.` */
const saySides = (value: unknown, names: SideNames): string | null => {
  if (typeof value !== "string") return null;
  const stored: NonNullable<Card["sides"]> = JSON.parse(value);
  const said = SIDE_NAMES.flatMap((side) => {
    const read = readSide(side, stored[side]);
    return read === null ? [] : [sideWords(side, read, names)];
  });
  return said.length === 0 ? null : said.join(" ");
};

const CONSTANT_NAMES = new Map(
  CONSTANTS.flatMap(({ constants }) => constants).map(({ path, label }) => [path, label] as const),
);

const NAMES: Readonly<Record<string, string>> = {
  countIn: "Count-in", firstChord: "First chord", liftKey: "Key after the lift", recordKey: "Key on the record", capo: "Capo", stage: "Stands",
  rig: "Change of instrument", call: "Everybody there at", dress: "Dress", contact: "Whom to ring",
  shapeMatters: "The shape under the hand", openLow: "The riff needs the open lowest string",
  "again.key": "Key", "again.tempo": "Tempo", "again.form": "Form", "again.ending": "Ending", chairs: "For",
  text: "Wording", right: "Right when", since: "Learn it again", wordings: "Two wordings", source: "From",
  without: "Stands in for", where: "Where", seats: "Your seats", order: "Order of your songs", tonight: "That night",
  date: "Day", minutes: "Minutes to play", plan: "Your songs in the plan", standIn: "You stand in on",
  you: "You are there", booked: "Minutes booked", setUp: "Set-up", packDown: "Pack-down", gig: "For the gig",
  level: "Your status", sides: "Beside the words", answers: "Answered", tuning: "Usual tuning", timeZone: "Time zone", is: "",
}; // biome-ignore format: one glance

/** The name of an entry at the start of a line. */
export const entryName = (entry: string): string =>
  NAMES[entry] ??
  CONSTANT_NAMES.get(entry) ??
  (entry.startsWith("part.")
    ? "Your part"
    : entry.startsWith("texture.")
      ? "When you play"
      : capital(entry.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`)));

/** How the entries of a fact of this song, or of none, are said. `today` is a day of the band. */
export const sayEntry = (
  board: Board,
  file: SongFile | undefined,
  today: string,
): ((entry: string) => Say) => {
  const names = namesOf(board);
  const title = (song: unknown): string => board.songs.get(String(song))?.song.title ?? "a song that is gone";
  const chairs: Say = (value) => listed(listOf(value).map((chair) => names.chair(String(chair))));
  const says: Readonly<Record<string, Say>> = {
    chairs,
    seats: chairs,
    standIn: chairs,
    form: sayForm,
    wordings: (value) => listed(listOf(value).map((text) => `‘${text}’`)),
    where: (value) => formatWhere((value ?? {}) as Where, file?.sections ?? []),
    without: (value) => names.chair(String(value)),
    level: (value) => LEVEL_WORDS[(typeof value === "number" ? value : 0) as Level] ?? null,
    tempo: (value) => (typeof value === "number" ? `${value} bpm` : null),
    length: (value) => (typeof value === "number" ? formatLength(value) : null),
    date: (value) => (isDay(value) ? dayWords(value, { weekday: true, today }) : null),
    from: (value) => (isDay(value) ? dayWords(value, { weekday: true, today }) : null),
    to: (value) => (isDay(value) ? dayWords(value, { weekday: true, today }) : null),
    order: (value) =>
      listOf(value)
        .map((song, i) => `${i + 1} ${title(song)}`)
        .join(", "),
    plan: (value) => listed(listOf(value).map((block) => title(listOf(block)[0]))),
    sides: (value) => saySides(value, { chair: names.chair, sections: file?.sections ?? [] }),
    gig: (value) => board.gigs.find(({ id }) => id === value)?.name ?? null,
    answers: (value) =>
      listOf(value)
        .map((answer) => `‘${Reflect.get(Object(answer), "text")}’`)
        .join(", "),
  };
  return (entry) => says[entry] ?? (entry.startsWith("texture.") ? sayTexture(file) : asText);
};
