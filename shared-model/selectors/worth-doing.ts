/** Which of one's own details are most worth an evening's work, by what each would add to its song on the night. */
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { raiseDetails } from "../readiness/raise.ts";
import type { ScoreInput } from "../readiness/score-input.ts";

export interface Worth {
  readonly song: Id;
  readonly card: Card;
  /** What the song's score on the night gains, 0 to 1; exact. */
  readonly difference: number;
}

/** A song, and those of its details that are asked about. */
export interface WorthQuestion {
  /** `t` is the night. */
  readonly input: ScoreInput;
  readonly cards: ReadonlySet<Id>;
}

/** Tries one drill of each detail, one by one, for a screen that stays answerable meanwhile. */
export function* worthEach(questions: Iterable<WorthQuestion>): Generator<Worth, void> {
  for (const { input, cards } of questions)
    for (const { action, difference } of raiseDetails(input, (card) => cards.has(card.id)))
      yield { song: input.file.song.id, card: action.card, difference };
}

/** The best of them, biggest gain first, then musts; gains of nothing are left out. Total order. */
export const mostWorth = (worths: readonly Worth[], most: number): readonly Worth[] =>
  worths
    .filter(({ difference }) => difference > 0)
    .sort(
      (a, b) =>
        b.difference - a.difference ||
        Number(b.card.weight === "must") - Number(a.card.weight === "must") ||
        (a.card.id < b.card.id ? -1 : 1),
    )
    .slice(0, most);
