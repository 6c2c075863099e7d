/** Harmonies below the lead that lie too low for whoever sings them, once a song is played lower. */
import type { Board, SongFile } from "../board/board.ts";
import type { LineUp } from "../board/line-up.ts";
import { readSide } from "../board/sides/detail-sides.ts";
import { intervalSemitones } from "../board/sides/side-words.ts";
import type { Key } from "../music/key.ts";
import { type Melody, rangeOf } from "../music/key-fit/melody.ts";
import { noteName } from "../music/note-name.ts";
import { semitoneWords } from "./key-fit-words.ts";

export interface HarmonyScene {
  readonly board: Pick<Board, "people">;
  readonly file: SongFile;
  readonly lineUp: LineUp;
  /** The melody as it stands. */
  readonly melody: Melody;
  /** Semitones by which it is to go down. */
  readonly lower: number;
  /** The key it then is in. */
  readonly key: Key;
}

/**
 * One sentence for each singer whose harmony falls out of what they can sing only by going lower. Their interval to the lead
 * is written in steps, so its lowest note is about where it is said to be. Who never said what they can sing is left out.
 */
export const harmoniesTooLow = (scene: HarmonyScene): readonly string[] => {
  const { board, file, lineUp, melody, lower, key } = scene;
  const said = new Set<string>();
  for (const { chairs, sides } of file.cards) {
    const steps = readSide("harmony", sides?.harmony)?.steps ?? 0;
    if (steps >= 0) continue;
    const before = rangeOf(melody).low + intervalSemitones(steps);
    const low = before - lower;
    for (const chair of chairs) {
      const singer = board.people.get(lineUp.get(chair) ?? "");
      const lowest = singer?.voice?.lowest;
      if (singer === undefined || lowest === undefined || low >= lowest || before < lowest) continue;
      said.add(
        `${singer.name}: the harmony goes to about ${noteName(low, key)}, ${semitoneWords(lowest - low)} below what they can sing`,
      );
    }
  }
  return [...said];
};
