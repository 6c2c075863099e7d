/** Changes of single fields in words: `changed the tempo of ‘Marzipan Diesel’ from 112 to 118`. */
import { isDay } from "../../lib/calendar.ts";
import { dayWords } from "../../lib/day-words.ts";
import { formatLength } from "../../music/duration.ts";
import { quoted } from "./stored-names.ts";

/** A key of a record that went from one value to another. */
export interface FieldChange {
  readonly field: string;
  readonly before: unknown;
  readonly after: unknown;
}

const valueWords = (field: string, value: unknown): string => {
  if (typeof value === "number") return field === "length" ? formatLength(value) : String(value);
  if (typeof value !== "string") return "";
  return isDay(value) ? dayWords(value) : quoted(value);
};

/** Says what became of one field. `label` names it; `of` what it belongs to. */
export const fieldPhrase = (label: string, of: string, { field, before, after }: FieldChange): string => {
  const [from, to] = [valueWords(field, before), valueWords(field, after)];
  if (to === "") return `cleared the ${label} of ${of}`;
  return from === ""
    ? `set the ${label} of ${of} to ${to}`
    : `changed the ${label} of ${of} from ${from} to ${to}`;
};

/** What a record's own coming and going says, before any of its fields. */
export interface Presence {
  readonly added: string;
  readonly removed: string;
  readonly restored: string;
}

/**
 * The coming or going of a record, or null when it was there before and after. `born`: a field that every such record
 * is made with, for those that were made without a mark.
 */
export const presencePhrase = (
  changes: readonly FieldChange[],
  born: string,
  { added, removed, restored }: Presence,
): string | null => {
  const mark = changes.find(({ field }) => field === "deleted");
  const isNew = changes.some(({ field, before }) => field === born && before === undefined);
  if (mark?.after === true) return isNew ? `${added} and took it off again` : removed;
  if (isNew) return added;
  return mark?.before === true ? restored : null;
};

/** Phrases for the fields of a record; fields without a phrase say nothing. */
export const fieldPhrases = (
  changes: readonly FieldChange[],
  phrases: { readonly [field: string]: (change: FieldChange) => string },
): readonly string[] => changes.flatMap((change) => phrases[change.field]?.(change) ?? []);
