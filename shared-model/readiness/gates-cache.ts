/** Gates that remember, beside the scores that do (readiness-cache.ts); apart, because only some screens ask them. */
import { type GateQuestion, type GigReady, gigReady } from "./gates.ts";
import type { ScoreInput } from "./score-input.ts";
import type { SongScore } from "./song-score.ts";

/** Questions remembered per score. */
const ANSWERS_PER_SCORE = 4;

interface KeptAnswer {
  readonly question: GateQuestion;
  readonly ready: GigReady;
}

const answers = new WeakMap<SongScore, readonly KeptAnswer[]>();

/**
 * As the pure gigReady; the same object again for the same question about the same score. `score` is the one that a
 * Readiness gives for `input`: it stays the same object exactly while nothing that the gates depend on has changed.
 */
export const rememberedReady = (input: ScoreInput, question: GateQuestion, score: SongScore): GigReady => {
  const kept = answers.get(score) ?? [];
  const known = kept.find(({ question: { gig, names } }) => gig === question.gig && names === question.names);
  const answer = known ?? { question, ready: gigReady(input, question, score) };
  if (answer !== kept[0])
    answers.set(score, [answer, ...kept.filter((other) => other !== answer)].slice(0, ANSWERS_PER_SCORE));
  return answer.ready;
};
