/**
 * The history as people read it: who did what, one line an entry.
 * Governing rule: total. What this page has no words for is still told, in general words.
 */
import type { HistoryEntry } from "../../history/entries.ts";
import type { History } from "../../history/history.ts";
import { placeOf, walkHistory } from "../../history/past-values.ts";
import { listed } from "../../readiness/names.ts";
import { detailPhrases, markPhrases } from "./detail-phrases.ts";
import { awayPhrases, rehearsalPhrases } from "./evening-phrases.ts";
import { gigPhrases, questionPhrases, rulingPhrases, takePhrases } from "./log-phrases.ts";
import { KIND_WORDS, manyPhrases } from "./many-phrases.ts";
import {
  bandPhrases,
  chairPhrases,
  partPhrases,
  personPhrases,
  sectionPhrases,
  songPhrases,
} from "./record-phrases.ts";
import { type StoredNames, storedNames } from "./stored-names.ts";

export interface HistoryLine {
  readonly entry: HistoryEntry;
  /** `Tomasz Wrzosnowicz`, `Somebody`, `The server`. */
  readonly who: string;
  /** What was done: `changed the tempo of ‘Marzipan Diesel’ from 112 to 118`. */
  readonly what: string;
  /** True when another device than the author's handed it over. */
  readonly passedOn: boolean;
  /** All of it: `Somebody added 12 songs (sent by another device).` */
  readonly sentence: string;
}

/** Phrases told in full; more become a number. */
const TOLD = 3;

const phrasesOf = (entry: HistoryEntry, names: StoredNames): readonly string[] => {
  const { kind, records, changes, author } = entry;
  const [record, ...others] = records;
  if (record === undefined || others.length > 0) return manyPhrases(entry, names);
  const { id } = record;
  switch (kind) {
    case "band":
      return bandPhrases(changes);
    case "song":
      return songPhrases(changes, id, names);
    case "section":
      return sectionPhrases(changes, id, names);
    case "part": {
      const [song = "", chair = ""] = id.split("/");
      const part = `the part of ${names.chair(chair)} in ${names.song(song)}`;
      return [...partPhrases(changes, id, names), ...markPhrases(changes, part, author, names)];
    }
    case "chair":
      return chairPhrases(changes, id, names);
    case "person":
      return personPhrases(changes, id, names);
    case "gig":
      return gigPhrases(changes, id, names);
    case "rehearsal":
      return rehearsalPhrases(changes, id, names);
    case "away":
      return awayPhrases(changes, names);
    case "detail":
      return detailPhrases(changes, id, author, names);
    case "take":
      return takePhrases(changes, id, names);
    case "ruling":
      return rulingPhrases(changes, names);
    case "question":
      return questionPhrases(changes, id, names);
    case "upkeep":
      return ["brought what is stored into its present form; the board says the same"];
    case "unknown":
      return [];
  }
};

/** What was done when there are no better words. */
const general = ({ kind, records }: HistoryEntry): string => {
  const [one, many] = KIND_WORDS[kind];
  if (kind === "band") return `changed ${one}`;
  return records.length === 1 ? `changed a ${one}` : `changed ${records.length} ${many}`;
};

const told = (phrases: readonly string[]): string => {
  if (phrases.length <= TOLD) return listed(phrases);
  const rest = phrases.length - TOLD + 1;
  return listed([...phrases.slice(0, TOLD - 1), `changed ${rest} more things`]);
};

/** What one entry did, without who did it. `names`: as of right after the entry. */
export const entryWords = (entry: HistoryEntry, names: StoredNames): string => {
  const phrases = [...new Set(phrasesOf(entry, names))];
  return phrases.length === 0 ? general(entry) : told(phrases);
};

const whoOf = ({ author }: HistoryEntry, names: StoredNames): string => {
  if (author.member !== null) return names.person(author.member);
  return author.device === "server" ? "The server" : "Somebody";
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * Lines for some entries of a history (those of a page, in any order), each with the names as they were.
 * Costs the changes between the entries, so hand them over in order.
 */
export const historyLines = (history: History, entries: readonly HistoryEntry[]): readonly HistoryLine[] => {
  const walk = walkHistory(history);
  const names = storedNames(walk);
  return entries.map((entry) => {
    walk.goTo(placeOf(history, entry.lastSeq));
    const who = capital(whoOf(entry, names));
    const what = entryWords(entry, names);
    const passedOn = entry.author.sentBy !== null;
    return {
      entry,
      who,
      what,
      passedOn,
      sentence: `${who} ${what}${passedOn ? " (sent by another device)" : ""}.`,
    };
  });
};
