/** The terms of a key's cost in plain words. They say where notes lie; they diagnose nothing. */
import type { Voice } from "../board/voice.ts";
import type { Key } from "../music/key.ts";
import { type Melody, movedBy, rangeOf } from "../music/key-fit/melody.ts";
import type { KeyChoice, KeyQuestion, KeyTerms } from "../music/key-fit/rank-keys.ts";
import { middleOf, shareAbove, tessituraShift } from "../music/key-fit/voice.ts";
import { noteName } from "../music/note-name.ts";
import { tuningWords } from "../music/tuning.ts";

/** One term of a cost. */
export interface TermLine {
  readonly term: keyof KeyTerms;
  readonly label: string;
  readonly cost: number;
  /** One sentence. */
  readonly words: string;
}

/** To be read beside every ranking. */
export const VOICE_CAUTION =
  "A ranking knows nothing of how a voice feels today. Stop when it hurts or turns hoarse, and ask a voice teacher or a doctor.";

export const semitoneWords = (n: number): string =>
  Math.abs(n) === 1 ? "1 semitone" : `${Number(Math.abs(n).toFixed(1))} semitones`;

export const percentWords = (share: number): string =>
  share > 0 && share < 0.01 ? "under 1 %" : `${Math.round(share * 100)} %`;

/** `our key`, `2 semitones below our key`. */
export const placeWords = (up: number, of: string): string =>
  up === 0 ? of : `${semitoneWords(up)} ${up < 0 ? "below" : "above"} ${of}`;

const LABELS: Readonly<Record<keyof KeyTerms, string>> = {
  out: "Beyond the voice",
  high: "High",
  low: "Low",
  lie: "Where it lies",
  character: "Far from the recording",
  shape: "Shapes under the hand",
  retune: "Retuning",
  capo: "Capo",
};

interface Spot {
  readonly melody: Melody;
  readonly voice: Voice;
  readonly key: Key;
  readonly singer: string;
}

const outWords = ({ melody, voice, key, singer }: Spot): string => {
  const { low, high } = rangeOf(melody);
  const said: string[] = [];
  if (high > voice.highest)
    said.push(
      `the top note ${noteName(high, key)} lies ${semitoneWords(high - voice.highest)} above the highest note of ${singer}, ${noteName(voice.highest, key)}; ${percentWords(shareAbove(melody, voice.highest))} of the sung time lies up there`,
    );
  if (low < voice.lowest)
    said.push(
      `the lowest note ${noteName(low, key)} lies ${semitoneWords(voice.lowest - low)} below the lowest note of ${singer}, ${noteName(voice.lowest, key)}`,
    );
  return said.length === 0
    ? `Every note lies within what ${singer} can sing.`
    : sentence(said.join(", and "));
};

const highWords = ({ melody, voice, key, singer }: Spot): string => {
  const { high } = rangeOf(melody);
  const over = high - voice.comfortHigh;
  if (over <= 0)
    return `The top note ${noteName(high, key)} lies within the comfortable range, up to ${noteName(voice.comfortHigh, key)}.`;
  return `The top note ${noteName(high, key)} lies ${semitoneWords(over)} above the comfortable top of ${singer}, ${noteName(voice.comfortHigh, key)}, which is passed ${percentWords(shareAbove(melody, voice.comfortHigh))} of the time.`;
};

const lowWords = ({ melody, voice, key, singer }: Spot): string => {
  const { low } = rangeOf(melody);
  const under = voice.comfortLow - low;
  if (under <= 0)
    return `The lowest note ${noteName(low, key)} lies within the comfortable range, down to ${noteName(voice.comfortLow, key)}.`;
  return `The lowest note ${noteName(low, key)} lies ${semitoneWords(under)} below the comfortable bottom of ${singer}, ${noteName(voice.comfortLow, key)}, which is passed ${percentWords(1 - shareAbove(melody, voice.comfortLow - 1))} of the time.`;
};

const lieWords = ({ melody, voice, key, singer }: Spot): string => {
  const mean = [...melody].reduce((sum, [pitch, share]) => sum + pitch * share, 0);
  const off = mean - middleOf(voice);
  const where = `${noteName(Math.round(mean), key)} on average`;
  if (Math.abs(off) < 0.5)
    return `The melody lies around ${where}, where the voice of ${singer} likes to be.`;
  return `The melody lies around ${where}, ${semitoneWords(off)} ${off > 0 ? "above" : "below"} where the voice of ${singer} likes to be.`;
};

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

const shapeWords = ({ hands }: KeyQuestion, { up, tuning, capo, terms }: KeyChoice): string => {
  if (hands === null) return "No guitar plays here.";
  if (terms.shape === 0)
    return up === 0 && tuning === hands.tuning && capo === hands.capo
      ? "The guitars play on as they do."
      : "The guitars keep their shapes.";
  const matters = {
    no: "any shape will do",
    nice: "the old one is nice to keep",
    essential: "the old one is essential",
  }[hands.matters];
  const lost = hands.openLow ? " The riff on the open lowest string is lost." : "";
  return `The guitars play it in other shapes; ${matters}.${lost}`;
};

const wordsFor = (question: KeyQuestion, choice: KeyChoice, spot: Spot): Record<keyof KeyTerms, string> => {
  const far = choice.up - question.recordUp;
  return {
    out: outWords(spot),
    high: highWords(spot),
    low: lowWords(spot),
    lie: lieWords(spot),
    character: far === 0 ? "It is the key of the recording." : `It lies ${placeWords(far, "the recording")}.`,
    shape: shapeWords(question, choice),
    retune:
      choice.tuning === question.usual
        ? `The guitars stay in the band's tuning, ${tuningWords(question.usual)}.`
        : `The guitars are in ${tuningWords(choice.tuning)}, while the band is in ${tuningWords(question.usual)}.`,
    capo: choice.capo === 0 ? "No capo." : `A capo at fret ${choice.capo}.`,
  };
};

/** Every term of a choice, those that cost most first. */
export const termLines = (question: KeyQuestion, choice: KeyChoice, singer: string): readonly TermLine[] => {
  const spot = {
    melody: movedBy(question.melody, choice.up),
    voice: question.voice,
    key: choice.key,
    singer,
  };
  const words = wordsFor(question, choice, spot);
  return (Object.keys(LABELS) as (keyof KeyTerms)[])
    .filter((term) => question.hands !== null || (term !== "shape" && term !== "retune" && term !== "capo"))
    .map((term) => ({ term, label: LABELS[term], cost: choice.terms[term], words: words[term] }))
    .sort((a, b) => b.cost - a.cost);
};

/** Semitones at the top of a voice whose share of the time is said. */
const TOP_STRETCH = 3;

/** The tessitura shift of Herbst and others (2012) in words, and the time in the top of the voice. */
export const crossCheck = (melody: Melody, voice: Voice): string => {
  const { low, high } = rangeOf(melody);
  const shift = tessituraShift(melody, voice);
  const room = (left: number, side: string): string =>
    left < 0 ? `${semitoneWords(left)} too few ${side}` : `${semitoneWords(left)} to spare ${side}`;
  const lies =
    shift === 0
      ? "in the middle of the voice"
      : `${semitoneWords(shift)} ${shift > 0 ? "high" : "low"} in the voice`;
  return `By its range alone the song lies ${lies}: ${room(voice.highest - high, "above")}, ${room(low - voice.lowest, "below")}. ${sentence(`${percentWords(shareAbove(melody, voice.highest - TOP_STRETCH))} of the sung time lies in the top ${TOP_STRETCH} semitones`)}`;
};
