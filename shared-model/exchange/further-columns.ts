/** What a list says of a song beside title, key, tempo and length: the columns an exported repertoire has. */

import { CAPO_MOST } from "../board/grid.ts";
import { parseForm, type TypedSection } from "../board/parse-form.ts";
import { STAGES, type Stage } from "../board/song.ts";
import { LINE_MAX, NOTE_MAX } from "../document/schema.ts";
import { foldText } from "../lib/fold-text.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { isChord } from "../music/chord-root.ts";
import { formatMetre, parseMetre } from "../music/metre.ts";
import type { FurtherColumn } from "./song-layout.ts";

/** Only what was given and could be read. */
export interface FurtherFacts {
  readonly stage?: Stage;
  readonly metre?: string;
  readonly recordKey?: string;
  readonly liftKey?: string;
  readonly energy?: number;
  readonly style?: string;
  readonly version?: string;
  readonly tuning?: string;
  readonly capo?: number;
  readonly countIn?: string;
  readonly firstChord?: string;
  readonly ending?: string;
  readonly form?: readonly TypedSection[];
  readonly notes?: string;
}

const upTo =
  (max: number) =>
  (text: string): Result<string> =>
    text.length <= max ? ok(text) : err(`this has ${text.length} characters. Shorten it to at most ${max}.`);

const readStage = (text: string): Result<Stage> => {
  const stage = STAGES.find((one) => one === foldText(text));
  return stage === undefined ? err(`this is no stage. Write one of ${STAGES.join(", ")}.`) : ok(stage);
};

const readMetre = (text: string): Result<string> => {
  const metre = parseMetre(text);
  return metre.ok ? ok(formatMetre(metre.value)) : metre;
};

const readEnergy = (text: string): Result<number> =>
  /^[1-5]$/.test(text) ? ok(Number(text)) : err("energy is a whole number from 1 to 5.");

const readCapo = (text: string): Result<number> =>
  /^\d{1,2}$/.test(text) && Number(text) <= CAPO_MOST
    ? ok(Number(text))
    : err(`a capo is a fret from 0 to ${CAPO_MOST}.`);

const readChord = (text: string): Result<string> =>
  isChord(text) ? ok(text) : err("the first chord is one chord such as D5 or Em7.");

/** How each column is read; refusals are one sentence. */
export const FURTHER: {
  readonly [C in FurtherColumn]: (text: string) => Result<NonNullable<FurtherFacts[C]>>;
} = {
  stage: readStage,
  metre: readMetre,
  recordKey: upTo(LINE_MAX),
  liftKey: upTo(LINE_MAX),
  energy: readEnergy,
  style: upTo(LINE_MAX),
  version: upTo(LINE_MAX),
  tuning: upTo(LINE_MAX),
  capo: readCapo,
  countIn: upTo(LINE_MAX),
  firstChord: readChord,
  ending: upTo(LINE_MAX),
  form: parseForm,
  notes: upTo(NOTE_MAX),
};

export const FURTHER_COLUMNS = Object.keys(FURTHER) as readonly FurtherColumn[];

/** What they are called where something is wrong with one, and in the preview. */
export const FURTHER_NAMES: { readonly [C in FurtherColumn]: string } = {
  stage: "stage",
  metre: "metre",
  recordKey: "key of the recording",
  liftKey: "key after the lift",
  energy: "energy",
  style: "style",
  version: "version",
  tuning: "tuning",
  capo: "capo",
  countIn: "count-in",
  firstChord: "first chord",
  ending: "ending",
  form: "form",
  notes: "notes",
};
