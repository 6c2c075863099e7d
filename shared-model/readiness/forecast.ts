import type { Take } from "../board/take.ts";
import { withPlanned } from "./planned.ts";
import type { ScoreInput } from "./score-input.ts";
import { type SongScore, scoreSong } from "./song-score.ts";

export interface Forecast {
  /** On the night if nothing more happens. Never above today's: time alone raises nothing. */
  readonly untouched: SongScore;
  /** On the night with the planned takes added; the same object when there are none. */
  readonly planned: SongScore;
}

/**
 * The score on the night: `input` with t = end of the gig day and asOf = now.
 * `planned` takes are dated between now and the gig; later ones are ignored.
 * `score` lets a caller bring a remembering scorer.
 */
export const onTheNight = (
  input: ScoreInput,
  planned: readonly Take[] = [],
  score: (input: ScoreInput) => SongScore = scoreSong,
): Forecast => {
  const untouched = score(input);
  return { untouched, planned: planned.length === 0 ? untouched : scoreSong(withPlanned(input, planned)) };
};
