/** What was done to details and marks, in words without the person who did it. */
import * as v from "valibot";
import { SIDE_NAMES, type SideName, type StoredSide } from "../../board/card.ts";
import type { Grid } from "../../board/grid.ts";
import { readSide, sideWords } from "../../board/sides/detail-sides.ts";
import { SIDE_LABELS } from "../../board/sides/side-labels.ts";
import { CARD_SIDES } from "../../document/side-schema.ts";
import type { KeyChange } from "../../document/stored-values.ts";
import type { ChangeAuthor } from "../../history/entries.ts";
import { fretsText, gridWords } from "../../music/grid-words.ts";
import { listed } from "../../readiness/names.ts";
import { presencePhrase } from "./field-phrases.ts";
import { fieldsIn } from "./record-phrases.ts";
import { entryOf, levelWords, quoted, type StoredNames, textOf } from "./stored-names.ts";

/** `practised`, `set … back to noticed`, or `marked … as practised for Lucía`. */
const markPhrase = (
  what: string,
  member: string,
  mark: unknown,
  author: ChangeAuthor,
  names: StoredNames,
) => {
  const [level, from] = [Number(entryOf(mark, "level")), Number(entryOf(mark, "from"))];
  const word = levelWords(level);
  if (author.member !== member) {
    const step = level < from ? "set" : "marked";
    return `${step} ${what} ${level < from ? "back to" : "as"} ${word} for ${names.person(member)}`;
  }
  if (level === 0 || level < from) return `set ${what} back to ${word}`;
  return level === from ? `said again: ${word} ${what}` : `${word} ${what}`;
};

export const markPhrases = (
  changes: readonly KeyChange[],
  what: string,
  author: ChangeAuthor,
  names: StoredNames,
): readonly string[] =>
  changes
    .filter(({ map }) => map === "statuses")
    .map(({ key, after }) => markPhrase(what, key.split("/")[1] ?? "", after, author, names));

const bodyPhrases = (id: string, before: unknown, after: unknown, names: StoredNames): readonly string[] => {
  const detail = `${names.detail(id)} in ${names.song(textOf(after, "song"))}`;
  const changed = (name: string): boolean =>
    JSON.stringify(entryOf(before, name)) !== JSON.stringify(entryOf(after, name));
  const chairs = entryOf(after, "chairs");
  const on = Array.isArray(chairs) ? listed(chairs.map((chair) => names.chair(String(chair)))) : "";
  const phrases: readonly (readonly [field: string, phrase: string])[] = [
    ["weight", `counted ${detail} as ${textOf(after, "weight")}`],
    ["kind", `sorted ${detail} under ‘${textOf(after, "kind")}’`],
    ["chairs", on === "" ? `took ${detail} off its chairs` : `gave ${detail} to ${on}`],
    ["where", `changed where ${detail} applies`],
    ["source", `said where ${detail} comes from: ${textOf(after, "source")}`],
    ["without", `changed who ${detail} stands in for`],
    ["order", `moved ${detail}`],
  ];
  return phrases.flatMap(([field, phrase]) => (changed(field) ? [phrase] : []));
};

const wordingPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames): readonly string[] => {
  const song = names.song(textOf(names.get("cards", `${id}/body`), "song"));
  return changes
    .filter(({ map }) => map === "texts")
    .map(({ key, after }) => {
      const [was, now] = [quoted(entryOf(after, "was")), quoted(entryOf(after, "text"))];
      if (key.split("/")[1] === "right")
        return now === ""
          ? `cleared how to hear that ${names.detail(id)} is right`
          : `said how to hear that ${names.detail(id)} is right: ${now}`;
      return was === "" || was === now
        ? `worded a detail of ${song}: ${now}`
        : `reworded ${was} to ${now} in ${song}`;
    });
};

/** What a key beside the body says now: `undefined` where it did not change, null where nothing or nothing readable. */
const sideIn = <T>(
  changes: readonly KeyChange[],
  key: string,
  { schema }: { readonly schema: v.GenericSchema<unknown, T> },
): T | null | undefined => {
  const change = changes.find((one) => one.map === "cards" && one.key === key);
  if (change === undefined) return undefined;
  const parsed = v.safeParse(schema, change.after);
  return parsed.success ? parsed.output : null;
};

const drawnPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames): readonly string[] => {
  const song = textOf(names.get("cards", `${id}/body`), "song");
  const detail = `${names.detail(id)} in ${names.song(song)}`;
  const grid = sideIn(changes, `${id}/grid`, CARD_SIDES.grid);
  const recorded = sideIn(changes, `${id}/recordedGrid`, CARD_SIDES.recordedGrid);
  const shape = sideIn(changes, `${id}/shape`, CARD_SIDES.shape);
  const metre = names.get("songs", `${song}/metre`);
  const bar = (written: Grid): string =>
    gridWords(written, typeof metre === "string" ? metre : "4/4", names.chair).replace(/\.$/, "");
  return [
    ...(grid === undefined ? []
      : grid === null ? [`took the grid off ${detail}`]
      : [`wrote the grid of ${detail}: ${bar(grid)}`]),
    ...(recorded === undefined ? []
      : recorded === null ? [`took the grid of the recording off ${detail}`]
      : [`wrote the grid of ${detail} as on the recording: ${bar(recorded)}`]),
    ...(shape === undefined ? []
      : shape === null ? [`took the shape off ${detail}`]
      : [`wrote the shape of ${detail}: ${fretsText(shape)}${shape.capo === 0 ? "" : `, capo ${shape.capo}`}${shape.tuning === undefined ? "" : `, tuned ${shape.tuning}`}`]),
  ]; // biome-ignore format: one decision
};

/** Sections that a side names, as they were called then, in its own order. */
const sectionsIn = (side: StoredSide, song: string, names: StoredNames) =>
  Object.values(side)
    .flatMap((entry) => (typeof entry === "object" && entry !== null ? Object.keys(entry) : []))
    .map((id) => ({ id, name: names.section(song, id) }));

const sidePhrases = (changes: readonly KeyChange[], id: string, names: StoredNames): readonly string[] => {
  const song = textOf(names.get("cards", `${id}/body`), "song");
  const detail = `${names.detail(id)} in ${names.song(song)}`;
  const phrase = (side: SideName): readonly string[] => {
    const stored = sideIn(changes, `${id}/${side}`, CARD_SIDES[side]);
    if (stored === undefined) return [];
    const value = readSide(side, stored);
    if (value === null) return [`took the ${SIDE_LABELS[side]} off ${detail}`];
    const said = sideWords(side, value, {
      chair: names.chair,
      sections: sectionsIn(value, song, names),
    });
    return [`wrote the ${SIDE_LABELS[side]} of ${detail}: ${said.replace(/\.$/, "")}`];
  };
  return SIDE_NAMES.flatMap(phrase);
};

export const detailPhrases = (
  changes: readonly KeyChange[],
  id: string,
  author: ChangeAuthor,
  names: StoredNames,
): readonly string[] => {
  const what = names.detailInSong(id);
  const presence = presencePhrase(fieldsIn(changes, "cards"), "body", {
    added: `wrote the detail ${what}`,
    removed: `took the detail ${what} off the board`,
    restored: `brought the detail ${what} back`,
  });
  const marks = markPhrases(changes, what, author, names);
  if (presence !== null) return [presence, ...marks];
  const body = changes.find(({ map, key }) => map === "cards" && key === `${id}/body`);
  const since = changes.find(({ map, key }) => map === "cards" && key === `${id}/since`);
  return [
    ...wordingPhrases(changes, id, names),
    ...(body === undefined ? [] : bodyPhrases(id, body.before, body.after, names)),
    ...drawnPhrases(changes, id, names),
    ...sidePhrases(changes, id, names),
    ...(since === undefined
      ? []
      : [
          Number(since.after) > 0
            ? `asked to learn ${what} again`
            : `took back that ${what} is to be learnt again`,
        ]),
    ...marks,
  ];
};
