/**
 * What a melody asks of a voice: how its sung time is spread over the pitches. Pitches are MIDI note numbers, C4 = 60,
 * A4 = 69 (440 Hz, ISO 16).
 */
import type { SongMelody, ThreeNotes } from "../../board/voice.ts";
import { err, ok, type Result } from "../../lib/result.ts";

/** Pitch → share of the sung time; the shares sum to 1. */
export type Melody = ReadonlyMap<number, number>;

/** Slices of a semitone that the spread is summed over. */
const SLICES = 64;

/**
 * The PERT distribution of project planning ("Application of a Technique for Research and Development Program Evaluation", Operations Research 7(5), 1959; a beta distribution with shapes
 * 1 + 4(typical − low)/(high − low) and 1 + 4(high − typical)/(high − low)) over the semitones from low to high.
 */
export const melodyOf = ({ low, typical, high }: ThreeNotes): Result<Melody> => {
  if (!(low <= typical && typical <= high))
    return err("The usual note lies between the lowest and the highest. Put the three in order.");
  if (low === high) return ok(new Map([[low, 1]]));
  const width = high - low;
  const [alpha, beta] = [1 + (4 * (typical - low)) / width, 1 + (4 * (high - typical)) / width];
  const shares = new Map<number, number>();
  let sum = 0;
  for (let pitch = low; pitch <= high; pitch += 1) {
    let share = 0;
    for (let slice = 0; slice < SLICES; slice += 1) {
      const x = (pitch - 0.5 + (slice + 0.5) / SLICES - low) / width;
      if (x > 0 && x < 1) share += x ** (alpha - 1) * (1 - x) ** (beta - 1);
    }
    shares.set(pitch, share);
    sum += share;
  }
  return ok(new Map([...shares].map(([pitch, share]) => [pitch, share / sum])));
};

/** A melody from the time, in any unit, that each pitch is sung; pitches without time are left out. */
export const melodyFromTimes = (times: ReadonlyMap<number, number>): Result<Melody> => {
  const sung = [...times].filter(([, time]) => time > 0).sort(([a], [b]) => a - b);
  const sum = sung.reduce((total, [, time]) => total + time, 0);
  return sung.length === 0
    ? err("Nothing is sung here. Give at least one note.")
    : ok(new Map(sung.map(([pitch, time]) => [pitch, time / sum])));
};

/** The melody a song has written down, in the key it was written in. */
export const sungMelody = (melody: SongMelody): Result<Melody> => {
  if (!("histogram" in melody)) return melodyOf(melody);
  const times = new Map<number, number>();
  for (const [pitch, time] of melody.histogram) times.set(pitch, (times.get(pitch) ?? 0) + time);
  return melodyFromTimes(times);
};

/** The same melody, `up` semitones higher. */
export const movedBy = (melody: Melody, up: number): Melody =>
  new Map([...melody].map(([pitch, share]) => [pitch + up, share]));

/** Lowest and highest pitch that is sung. */
export const rangeOf = (melody: Melody): { readonly low: number; readonly high: number } => {
  const sung = [...melody].filter(([, share]) => share > 0).map(([pitch]) => pitch);
  return { low: Math.min(...sung), high: Math.max(...sung) };
};
