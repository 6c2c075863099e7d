/** What was done to songs, sections, parts, chairs, people and the band, in words without the person who did it. */
import type { KeyChange } from "../../document/stored-values.ts";
import { CONSTANTS } from "../constants.ts";
import { PRESENCE_VERBS } from "../texture-words.ts";
import { type FieldChange, fieldPhrase, fieldPhrases, presencePhrase } from "./field-phrases.ts";
import { entryOf, quoted, type StoredNames } from "./stored-names.ts";

/** The field changes of one map among an entry's changes. */
export const fieldsIn = (changes: readonly KeyChange[], map: KeyChange["map"]): readonly FieldChange[] =>
  changes
    .filter((change) => change.map === map)
    .map(({ key, before, after }) => ({ field: key.slice(key.lastIndexOf("/") + 1), before, after }));

const SONG_LABELS: { readonly [field: string]: string } = {
  style: "style",
  version: "version to learn from",
  recordKey: "key of the recording",
  key: "key",
  liftKey: "lifted key",
  tempo: "tempo",
  metre: "metre",
  length: "length",
  countIn: "count-in",
  ending: "ending",
  tuning: "tuning",
  capo: "capo",
  tolerance: "tempo tolerance",
  energy: "energy",
  rig: "change of instrument",
};

const FLOOR_WORDS: { readonly [role: string]: string } = {
  fills: "fills the floor",
  holds: "keeps the floor",
  slow: "is a slow dance",
  seated: "is for listening",
};
const STRONG_WORDS: { readonly [place: string]: string } = {
  opener: "opens a block well",
  closer: "closes a block well",
  both: "opens and closes a block well",
};

const SHAPE_WORDS: { readonly [matters: string]: string } = {
  "": "does not matter",
  nice: "is nice to keep",
  essential: "is essential",
};

/** The words for a stored value, whatever that is. */
const wordFor = (words: { readonly [value: string]: string }, value: unknown): string | undefined =>
  typeof value === "string" && Object.hasOwn(words, value) ? words[value] : undefined;

const AGAIN: { readonly [field: string]: string } = {
  keySince: "key",
  tempoSince: "tempo",
  formSince: "form",
  endingSince: "ending",
};

export const songPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const song = names.song(id);
  const fields = fieldsIn(changes, "songs");
  const presence = presencePhrase(fields, "title", {
    added: `added the song ${song}`,
    removed: `took the song ${song} off the board`,
    restored: `brought the song ${song} back`,
  });
  if (presence !== null) return [presence];
  const said = fieldPhrases(fields, {
    title: ({ before }) => `renamed the song ${quoted(before)} to ${song}`,
    stage: ({ before, after }) => `moved ${song} from ‘${before ?? "learning"}’ to ‘${after}’`,
    notes: () => `rewrote the notes on ${song}`,
    playedBefore: ({ after }) =>
      after === true ? `said that ${song} was played before` : `said that ${song} was never played before`,
    firstChord: ({ after }) => {
      const chord =
        typeof after === "object" && after !== null && "chord" in after ? String(after.chord) : "";
      return chord === ""
        ? `cleared the first chord of ${song}`
        : `set the first chord of ${song} to ‘${chord}’`;
    },
    melody: ({ after }) =>
      after === null
        ? `took back what the melody of ${song} asks for`
        : `wrote down what the melody of ${song} asks for`,
    shapeMatters: ({ after }) =>
      `said that the shape under the hand ${wordFor(SHAPE_WORDS, after) ?? "counts"} in ${song}`,
    openLow: ({ after }) =>
      after === true
        ? `said that the riff of ${song} needs the open lowest string`
        : `said that the riff of ${song} needs no open string`,
    floor: ({ after }) =>
      `said that ${song} ${wordFor(FLOOR_WORDS, after) ?? "does nothing special to the floor"}`,
    strong: ({ after }) =>
      `said that ${song} ${wordFor(STRONG_WORDS, after) ?? "may stand anywhere in a block"}`,
    hardToSing: ({ after }) => `said that ${song} is ${after === true ? "hard" : "not hard"} to sing`,
    order: () => `moved ${song} in the repertoire`,
    ...Object.fromEntries(
      Object.entries(SONG_LABELS).map(([field, label]) => [
        field,
        (change: FieldChange) => fieldPhrase(label, song, change),
      ]),
    ),
    ...Object.fromEntries(
      Object.entries(AGAIN).map(([field, label]) => [
        field,
        ({ after }: FieldChange) =>
          after === 0
            ? `took back that the ${label} of ${song} is to be learnt again`
            : `asked to learn what hangs on the ${label} of ${song} again`,
      ]),
    ),
  });
  return [...said, ...hintPhrases(changes, song)];
};

export const sectionPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const [of = "", own = ""] = id.split("/");
  const section = `the section ${names.section(of, own)}`;
  const song = names.song(of);
  const fields = fieldsIn(changes, "sections");
  const presence = presencePhrase(fields, "name", {
    added: `added ${section} to the form of ${song}`,
    removed: `took ${section} out of the form of ${song}`,
    restored: `brought ${section} back into the form of ${song}`,
  });
  if (presence !== null) return [presence];
  return fieldPhrases(fields, {
    name: ({ before }) => `renamed the section ${quoted(before)} of ${song} to ${names.section(of, own)}`,
    bars: ({ before, after }) => `changed ${section} of ${song} from ${before ?? 8} to ${after} bars`,
    repeats: ({ after }) =>
      after === 1
        ? `let ${section} of ${song} be played once`
        : `let ${section} of ${song} be played ${after} times`,
    metre: (change) => fieldPhrase("metre", `${section} of ${song}`, change),
    tempo: (change) => fieldPhrase("tempo", `${section} of ${song}`, change),
    key: (change) => fieldPhrase("key", `${section} of ${song}`, change),
    order: () => `moved ${section} in the form of ${song}`,
    since: () => `asked to learn ${section} of ${song} again`,
  });
};

const hintPhrases = (changes: readonly KeyChange[], song: string): readonly string[] =>
  changes
    .filter(({ map }) => map === "hints")
    .map(({ after }) =>
      after === true
        ? `dismissed a hint about who plays when in ${song}`
        : `asked for a dismissed hint about who plays when in ${song} again`,
    );

const texturePhrases = (changes: readonly KeyChange[], names: StoredNames): readonly string[] =>
  changes
    .filter(({ map }) => map === "textures")
    .map(({ key, after }) => {
      const [song = "", section = "", chair = "", source] = key.split("/");
      const said = entryOf(after, "changes");
      const where = `in ${names.section(song, section)} of ${names.song(song)}`;
      const reading = source === "recorded" ? " on the record" : "";
      const who = names.chair(chair);
      if (!Array.isArray(said) || said.length === 0) return `left open how ${who} plays ${where}${reading}`;
      const words = said.length === 1 ? PRESENCE_VERBS.get(String(entryOf(said[0], "presence"))) : undefined;
      return words === undefined || entryOf(said[0], "bar") !== 1
        ? `said when ${who} plays ${where}${reading}`
        : `said that ${who} ${words} ${where}${reading}`;
    });

export const partPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const [of = "", own = ""] = id.split("/");
  const chair = names.chair(own);
  const song = names.song(of);
  const cast = fieldPhrases(fieldsIn(changes, "castings"), {
    plays: ({ after }) =>
      after === false ? `left ${chair} out of ${song}` : `gave ${chair} something to play in ${song}`,
    needed: ({ after }) =>
      after === false ? `made ${chair} nice to have in ${song}` : `made ${chair} needed in ${song}`,
    holder: ({ after }) =>
      after === "" ? `left ${chair} in ${song} to its usual player` : `put ${names.person(String(after))} on ${chair} in ${song}`,
    share: ({ after }) => `changed how much ${chair} counts in ${song} to ${after}`,
    nothingSpecial: ({ after }) =>
      after === "" ? `took back that ${chair} holds nothing special in ${song}` : `declared that ${chair} holds nothing special in ${song}`,
  }); // biome-ignore format: one sentence a line
  return [...cast, ...texturePhrases(changes, names)];
};

export const chairPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const chair = names.chair(id);
  const fields = fieldsIn(changes, "chairs");
  const presence = presencePhrase(fields, "name", {
    added: `added the chair ${chair}`,
    removed: `took the chair ${chair} off the board`,
    restored: `brought the chair ${chair} back`,
  });
  if (presence !== null) return [presence];
  return fieldPhrases(fields, {
    name: ({ before }) => `renamed the chair ${quoted(before)} to ${chair}`,
    short: (change) => fieldPhrase("short name", chair, change),
    instrument: (change) => fieldPhrase("instrument", chair, change),
    holder: ({ after }) =>
      after === "" || after === null
        ? `left ${chair} vacant`
        : `gave ${chair} to ${names.person(String(after))}`,
    order: () => `moved the chair ${chair}`,
  });
};

export const personPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const person = names.person(id);
  const fields = fieldsIn(changes, "people");
  const presence = presencePhrase(fields, "name", {
    added: `added ${person} to the band`,
    removed: `took ${person} out of the band`,
    restored: `brought ${person} back into the band`,
  });
  if (presence !== null) return [presence];
  return fieldPhrases(fields, {
    name: ({ before }) => `corrected the name ${quoted(before)} to ${person}`,
    voice: ({ after }) =>
      after === null ? `took back what ${person} can sing` : `wrote down what ${person} can sing`,
    dep: ({ after }) => (after === true ? `made ${person} a dep` : `made ${person} a member`),
    order: () => `moved ${person} in the list of people`,
  });
};

const CONSTANT_LABELS = new Map(
  CONSTANTS.flatMap(({ constants }) => constants).map(({ path, label }) => [path, label] as const),
);

export const bandPhrases = (changes: readonly KeyChange[]): readonly string[] => [
  ...fieldPhrases(fieldsIn(changes, "band"), {
    name: ({ after }) => `named the band ${quoted(after)}`,
    timeZone: ({ after }) => `set the band's time zone to ${after}`,
    tuning: (change) => fieldPhrase("usual tuning", "the band", change),
    demo: () => "said whether this is the band to try things on",
    settings: () => "changed the numbers the score is made with",
  }),
  ...changes
    .filter(({ map }) => map === "settings")
    .map(({ key, before, after }) => {
      const label = `‘${CONSTANT_LABELS.get(key) ?? key}’`;
      if (after === null) return `put ${label} back to where it starts`;
      return typeof before === "number"
        ? `changed ${label} from ${before} to ${after}`
        : `changed ${label} to ${after}`;
    }),
];
