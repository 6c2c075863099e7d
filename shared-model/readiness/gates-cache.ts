/** Gates that remember, beside the scores that do (readiness-cache.ts); apart, because only some screens ask them. */
import type { Id } from "../board/ids.ts";
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
 * True when two gigs ask the same of a song: its key and tempo of the night, and its waivers. So a gig whose order or
 * other songs changed asks nothing anew.
 */
const asksTheSame = (song: Id, a: GateQuestion["gig"], b: GateQuestion["gig"]): boolean => {
  if (a === b) return true;
  const [one, other] = [a, b].map((gig) => gig?.songs.find((entry) => entry.song === song));
  if ((one?.key ?? null) !== (other?.key ?? null) || (one?.tempo ?? null) !== (other?.tempo ?? null))
    return false;
  const [ours, theirs] = [a, b].map((gig) => gig?.waivers.filter((waiver) => waiver.song === song) ?? []);
  return JSON.stringify(ours) === JSON.stringify(theirs);
};

/**
 * As the pure gigReady; the same object again for the same question about the same score. `score` is the one that a
 * Readiness gives for `input`: it stays the same object exactly while nothing that the gates depend on has changed.
 */
export const rememberedReady = (input: ScoreInput, question: GateQuestion, score: SongScore): GigReady => {
  const kept = answers.get(score) ?? [];
  const known = kept.find(
    ({ question: { gig, names } }) =>
      names === question.names && asksTheSame(input.file.song.id, gig, question.gig),
  );
  const answer = known ?? { question, ready: gigReady(input, question, score) };
  if (answer !== kept[0])
    answers.set(score, [answer, ...kept.filter((other) => other !== answer)].slice(0, ANSWERS_PER_SCORE));
  return answer.ready;
};
