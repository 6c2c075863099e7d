/**
 * What a side of a detail is made of: entries, each of one of six kinds. A side is read entry by entry, so that what a
 * later release adds, or a broken entry, never takes the rest of it off the screen.
 */
import type { Id } from "../ids.ts";

/** An effect by the band's own word. */
export interface Switch {
  readonly name: string;
  readonly on: boolean;
}

interface NumberEntry {
  readonly of: "number";
  readonly label: string;
  readonly low: number;
  readonly high: number;
  /** Values lie on whole multiples of this; both are exact in binary. */
  readonly step: 0.5 | 1;
  /** How a value is called where a number alone says little; then it is chosen from a list. */
  readonly say?: (value: number) => string;
}
interface WordEntry<W extends string = string> {
  readonly of: "word";
  readonly label: string;
  readonly words: readonly W[];
}
/** One word of the band's own, without spaces. */
interface CueEntry {
  readonly of: "cue";
  readonly label: string;
}
interface ChairEntry {
  readonly of: "chair";
  readonly label: string;
}
interface SwitchesEntry {
  readonly of: "switches";
  readonly label: string;
}
interface SectionsEntry<W extends string = string> {
  readonly of: "sections";
  readonly label: string;
  readonly words: readonly W[];
}

export type Entry = NumberEntry | WordEntry | CueEntry | ChairEntry | SwitchesEntry | SectionsEntry;
export type Entries = { readonly [name: string]: Entry };

type EntryValue<E extends Entry> = E extends { readonly of: "number" }
  ? number | null
  : E extends WordEntry<infer W>
    ? E["of"] extends "word"
      ? W | null
      : Readonly<Record<Id, W>>
    : E extends SectionsEntry<infer W>
      ? Readonly<Record<Id, W>>
      : E extends { readonly of: "chair" }
        ? Id | null
        : E extends { readonly of: "switches" }
          ? readonly Switch[]
          : string;

/** null, "", an empty list or record = not said. */
export type ValueOf<E extends Entries> = { readonly [K in keyof E]: EntryValue<E[K]> };

export const SWITCHES_MOST = 6;
export const SWITCH_NAME_MOST = 24;
export const CUE_MOST = 24;
/** Longest id and most sections that one side may name. */
const ID_MOST = 100;
const SECTIONS_MOST = 200;

const isText = (value: unknown, most: number): value is string =>
  typeof value === "string" && value.length > 0 && value.length <= most;
const isId = (value: unknown): value is Id => isText(value, ID_MOST) && !value.includes("/");
const fold = (name: string): string => name.trim().toLowerCase();

const isSwitch = (value: unknown): value is Switch =>
  typeof value === "object" &&
  value !== null &&
  isText(Reflect.get(value, "name"), SWITCH_NAME_MOST) &&
  fold(Reflect.get(value, "name")) !== "" &&
  typeof Reflect.get(value, "on") === "boolean";

/** The switches of a list that can be used: named, each name once, no more than there is room for. */
const readSwitches = (value: unknown): readonly Switch[] => {
  const seen = new Set<string>();
  const usable = (Array.isArray(value) ? value : []).filter((one): one is Switch => {
    if (!isSwitch(one) || seen.has(fold(one.name))) return false;
    seen.add(fold(one.name));
    return true;
  });
  return usable.slice(0, SWITCHES_MOST).map(({ name, on }) => ({ name: name.trim(), on }));
};

const readSections = (value: unknown, words: readonly string[]): Readonly<Record<Id, string>> =>
  Object.fromEntries(
    Object.entries(typeof value === "object" && value !== null && !Array.isArray(value) ? value : {})
      .filter(([section, word]) => isId(section) && words.includes(word as string))
      .slice(0, SECTIONS_MOST),
  );

/** What an entry holds where nothing is said. */
const emptyOf = (entry: Entry): unknown =>
  entry.of === "switches" ? [] : entry.of === "sections" ? {} : entry.of === "cue" ? "" : null;

/** A stored value as its entry takes it; what does not fit counts as not said. */
const readEntry = (entry: Entry, value: unknown): unknown => {
  switch (entry.of) {
    case "number": {
      const fits =
        typeof value === "number" &&
        value >= entry.low &&
        value <= entry.high &&
        Number.isInteger(value / entry.step);
      // −0 becomes 0, which JSON does not tell apart.
      return fits ? value + 0 : null;
    }
    case "word":
      return entry.words.includes(value as string) ? value : null;
    case "cue":
      return isText(value, CUE_MOST) && !/\s/.test(value) ? value : "";
    case "chair":
      return isId(value) ? value : null;
    case "switches":
      return readSwitches(value);
    case "sections":
      return readSections(value, entry.words);
  }
};

/** Reads any record as these entries, without exceptions. */
export const readEntries = <E extends Entries>(
  entries: E,
  stored: Readonly<Record<string, unknown>>,
): ValueOf<E> =>
  Object.fromEntries(
    Object.entries(entries).map(([name, entry]) => [
      name,
      readEntry(entry, Object.hasOwn(stored, name) ? stored[name] : emptyOf(entry)),
    ]),
  ) as ValueOf<E>;

/** All entries not said. */
export const emptyEntries = <E extends Entries>(entries: E): ValueOf<E> => readEntries(entries, {});

const isSaid = (value: unknown): boolean =>
  value !== null && value !== "" && Object.keys(Object(value)).length + Number(typeof value !== "object") > 0;

/** True where at least one entry says something. */
export const saysSomething = (value: Readonly<Record<string, unknown>>): boolean =>
  Object.values(value).some(isSaid);

const list = (words: readonly string[]): string => words.join(", ");

/** Why a list of effects cannot be kept. */
const switchesFault = (value: unknown): string | null => {
  if (!Array.isArray(value)) return "Give the effects as a list, each with a name, on or off.";
  if (value.length > SWITCHES_MOST) return `Name at most ${SWITCHES_MOST} effects.`;
  if (value.some((one) => fold(String(Reflect.get(Object(one), "name") ?? "")) === ""))
    return "Name every effect, or take the one without a name off.";
  if (!value.every(isSwitch))
    return `Give each effect a name of at most ${SWITCH_NAME_MOST} characters, and say whether it is on.`;
  return readSwitches(value).length < value.length
    ? "Two effects have the same name: give one of them another."
    : null;
};

/** What to do about an entry that does not fit, in one sentence. */
const entryFault = (entry: Entry, value: unknown): string => {
  const label = entry.label.toLowerCase();
  switch (entry.of) {
    case "number":
      return `Give “${label}” a ${entry.step === 1 ? "whole number" : "number, in halves,"} from ${entry.low} to ${entry.high}, or nothing.`;
    case "word":
      return `Choose “${label}” from ${list(entry.words)}, or nothing.`;
    case "cue":
      return `Give “${label}” one word of at most ${CUE_MOST} characters: the words of a song are not kept here.`;
    case "chair":
      return `Choose “${label}” from the band's chairs, or nobody.`;
    case "switches":
      return switchesFault(value) ?? "";
    case "sections":
      return `Choose for each section one of ${list(entry.words)}, or nothing.`;
  }
};

const fitsWhole = (entry: Entry, value: unknown): boolean => {
  if (entry.of === "switches") return switchesFault(value) === null;
  if (entry.of === "sections")
    return (
      typeof value === "object" &&
      value !== null &&
      !Array.isArray(value) &&
      Object.keys(readSections(value, entry.words)).length === Object.keys(value).length
    );
  return value === emptyOf(entry) || isSaid(readEntry(entry, value));
};

/** The first entry that does not fit, as a sentence that says what to do; null when all do. */
export const faultInEntries = (
  entries: Entries,
  stored: Readonly<Record<string, unknown>>,
): string | null => {
  for (const [name, entry] of Object.entries(entries))
    if (Object.hasOwn(stored, name) && !fitsWhole(entry, stored[name]))
      return entryFault(entry, stored[name]);
  return null;
};
