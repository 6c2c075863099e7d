/** Where one is in a form at a steady count, from the seconds that have passed since its first bar. */

/** A section as the clock needs it. */
export interface ClockStretch {
  readonly section: string;
  /** Bars of one pass, a whole number above 0. */
  readonly bars: number;
  /** Passes in a row, 1 or more. */
  readonly repeats: number;
  /** Counted beats of a bar. */
  readonly beats: number;
  /** Seconds of one counted beat. */
  readonly beatSeconds: number;
}

/** A moment of the form. Bars, beats and passes count from 1. */
export interface FormMoment {
  readonly section: string;
  /** Of a section that is played once always 1. */
  readonly pass: number;
  readonly bar: number;
  readonly beat: number;
}

const secondsOfPass = ({ bars, beats, beatSeconds }: ClockStretch): number => bars * beats * beatSeconds;

/** Seconds the whole form lasts. */
export const formSeconds = (form: readonly ClockStretch[]): number =>
  form.reduce((sum, stretch) => sum + secondsOfPass(stretch) * stretch.repeats, 0);

/** Reading back what `secondsAt` gave must not fall a beat behind by rounding. */
const SLACK = 1e-6;

/** The beat that sounds `seconds` after the first one; null before the form begins and after it ends. */
export const momentAt = (form: readonly ClockStretch[], seconds: number): FormMoment | null => {
  if (seconds < 0) return null;
  let left = seconds + SLACK;
  for (const stretch of form) {
    const { section, bars, beats, beatSeconds, repeats } = stretch;
    const beat = Math.floor(left / beatSeconds);
    if (beat < bars * beats * repeats) {
      const inPass = beat % (bars * beats);
      const pass = Math.floor(beat / (bars * beats)) + 1;
      return { section, pass, bar: Math.floor(inPass / beats) + 1, beat: (inPass % beats) + 1 };
    }
    left -= secondsOfPass(stretch) * repeats;
  }
  return null;
};

/** Seconds from the first beat of the form to a moment of it; null where it has no such place. */
export const secondsAt = (form: readonly ClockStretch[], moment: FormMoment): number | null => {
  let passed = 0;
  for (const stretch of form) {
    const { section, bars, beats, beatSeconds, repeats } = stretch;
    const { pass, bar, beat } = moment;
    if (section === moment.section) {
      if (pass > repeats || bar > bars || beat > beats) return null;
      return passed + ((pass - 1) * bars * beats + (bar - 1) * beats + beat - 1) * beatSeconds;
    }
    passed += secondsOfPass(stretch) * repeats;
  }
  return null;
};
