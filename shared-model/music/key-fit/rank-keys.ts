/**
 * Which key for this singer, and who pays for it. Every term of the cost is shown; the constants are starting values that
 * order the choices (common practice, no published source).
 */
import type { Voice } from "../../board/voice.ts";
import { type Key, signatureOf } from "../key.ts";
import { transposeKey } from "../transpose.ts";
import type { Melody } from "./melody.ts";
import { cautions, tessituraShift, type VoiceTerms, voiceTerms } from "./voice.ts";

/** How much a guitar part hangs on its shape: open strings, a riff that lies under the hand. */
export type ShapeMatters = "no" | "nice" | "essential";

/** How the guitars play a song now. */
export interface Hands {
  readonly matters: ShapeMatters;
  /** Semitones of the tuning from standard, −2 = a whole step down. */
  readonly tuning: number;
  /** Fret. */
  readonly capo: number;
  /** True when the riff needs the open lowest string. */
  readonly openLow: boolean;
}

export interface KeyQuestion {
  readonly melody: Melody;
  readonly voice: Voice;
  /** The key the melody is given in. */
  readonly key: Key;
  /** Semitones from that key up to the recording's, negative = below; 0 where nobody knows. */
  readonly recordUp: number;
  /** Null = no guitar plays. */
  readonly hands: Hands | null;
  /** Tunings the guitars could use that night, semitones from standard. */
  readonly tunings: readonly number[];
  /** The band's tuning that night, semitones from standard. */
  readonly usual: number;
  /** Highest capo fret that is thought of. */
  readonly capoMax: number;
}

export interface KeyTerms extends VoiceTerms {
  /** The song loses its character far from the key of its recording. */
  readonly character: number;
  /** The hands leave their shape. */
  readonly shape: number;
  readonly retune: number;
  readonly capo: number;
}

export interface KeyChoice {
  readonly key: Key;
  /** Semitones above the key that was asked about, −6 to 6. */
  readonly up: number;
  readonly tuning: number;
  readonly capo: number;
  /** The sum of the terms; less is better. */
  readonly cost: number;
  readonly terms: KeyTerms;
  /** Who has to do what, in words; empty = nobody. */
  readonly pays: readonly string[];
  readonly cautions: readonly string[];
  /** Herbst's cross-check, semitones. */
  readonly tessituraShift: number;
}

/** Farther than this is another song. */
const FARTHEST = 6;
const SHOWN = 5;

/** What a key far from the song's own takes from it: a half step down is usually harmless. */
export const characterCost = (up: number): number => {
  if (up === 0) return 0;
  if (up === -1) return 0.04;
  const far = up < 0 ? Math.abs(up) - 1 : 1.15 * up - 0.4;
  return Math.min(1, 0.04 + 0.15 * far ** 1.15);
};

/** Signatures whose chords lie under open strings: from F to E, and their relative minors. */
const isOpenFriendly = (key: Key): boolean => {
  const signature = signatureOf(key);
  return signature >= -1 && signature <= 4;
};

const SHAPE_COST = { no: [0.1, 0.1], nice: [0.15, 0.5], essential: [0.35, 1.2] } as const;
const OPEN_STRING_LOST = 0.3;

/** What it costs to leave the shapes for those of another key. */
const shapeCost = (hands: Hands | null, shapes: Key): number => {
  if (hands === null) return 0;
  const { matters, openLow } = hands;
  const [open, closed] = SHAPE_COST[matters];
  return (isOpenFriendly(shapes) ? open : closed) + (openLow ? OPEN_STRING_LOST : 0);
};

const frets = (n: number): string => (n === 0 ? "capo off" : `capo at fret ${n}`);

const payersOf = (
  question: KeyQuestion,
  choice: Pick<KeyChoice, "up" | "tuning" | "capo">,
  moved: number,
): string[] => {
  const { hands, usual } = question;
  const pays: string[] = [];
  if (hands === null) return choice.up === 0 ? [] : ["everybody: the new key"];
  if (choice.capo !== hands.capo) pays.push(`guitars: ${frets(choice.capo)}`);
  if (choice.tuning !== usual) pays.push("guitars: retune");
  if (moved !== 0) {
    pays.push(hands.matters === "no" ? "guitars: move the chords" : "guitars: learn it in other shapes");
    if (hands.openLow) pays.push("guitars: the riff on the open low string is lost");
  }
  if (choice.up !== 0) pays.push("everybody else: the new key");
  return pays;
};

/** The best five keys. */
export const rankKeys = (question: KeyQuestion): readonly KeyChoice[] => allKeys(question).slice(0, SHOWN);

/** Every key within six semitones with its best tuning and capo, best first. */
export const allKeys = (question: KeyQuestion): readonly KeyChoice[] => {
  const { melody, voice, hands } = question;
  const choices: KeyChoice[] = [];
  for (let up = -FARTHEST; up <= FARTHEST; up += 1) {
    const key = transposeKey(question.key, up);
    const sung = voiceTerms(melody, voice, up);
    const said = { cautions: cautions(melody, voice, up), tessituraShift: tessituraShift(melody, voice, up) };
    const character = characterCost(up - question.recordUp);
    let best: KeyChoice | null = null;
    for (const tuning of hands === null ? [question.usual] : question.tunings)
      for (let capo = 0; capo <= (hands === null ? 0 : question.capoMax); capo += 1) {
        const moved = hands === null ? 0 : up - (tuning - hands.tuning) - (capo - hands.capo);
        const terms: KeyTerms = {
          ...sung,
          character,
          shape: moved === 0 ? 0 : shapeCost(hands, transposeKey(key, -tuning - capo)),
          retune: tuning === question.usual ? 0 : 0.25,
          capo: 0.04 * capo,
        };
        const cost = Object.values(terms).reduce((sum, term) => sum + term, 0);
        if (best !== null && cost >= best.cost) continue;
        const pays = payersOf(question, { up, tuning, capo }, moved);
        best = { key, up, tuning, capo, cost, terms, pays, ...said };
      }
    if (best !== null) choices.push(best);
  }
  return choices.sort((a, b) => a.cost - b.cost || Math.abs(a.up) - Math.abs(b.up));
};
