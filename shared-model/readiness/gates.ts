/**
 * Gig-ready, yes or no: six gates, separate from the score.
 * Governing rule: every "no" is one sentence that names a card, a player or a run.
 */
import type { Gig, GigSong } from "../board/band.ts";
import type { GateName } from "../board/gate.ts";
import { answer, type GateAnswer, type Obstacle } from "./gate-answer.ts";
import { detailObstacles, slipObstacles } from "./gate-details.ts";
import { debutObstacles, judgeRuns, togetherObstacles } from "./gate-together.ts";
import { capital, listed, type Names } from "./names.ts";
import { cutOf, type ScoreInput } from "./score-input.ts";
import { type SongScore, scoreSong } from "./song-score.ts";

export interface GateQuestion {
  /** Names key and tempo of the night, and waivers; null = no gig in particular. */
  readonly gig: Pick<Gig, "songs" | "waivers"> | null;
  readonly names: Names;
}

export interface GigReady {
  /** Every gate passed or waived. */
  readonly ready: boolean;
  /** In the order they are asked. */
  readonly gates: readonly GateAnswer[];
  /** The first "no" that nobody waived; null when ready. */
  readonly first: (GateAnswer & { readonly ok: false }) | null;
}

/**
 * Asks the six gates for one song, line-up and gig day (`input.t` = its end).
 * `score` may be handed in by a caller who has it for the same input.
 */
export const gigReady = (
  input: ScoreInput,
  { gig, names }: GateQuestion,
  score: SongScore = scoreSong(input),
): GigReady => {
  const { file } = input;
  const night = gig?.songs.find(({ song }) => song === file.song.id) ?? null;
  const runs = judgeRuns(input, score, night, names);
  const cut = cutOf(input);
  const playedAtGig = file.takes.some((take) => take.kind === "gig" && take.at <= cut);
  const ask = (gate: GateName, obstacles: readonly Obstacle[]): GateAnswer =>
    answer(gate, obstacles, gig?.waivers.find((w) => w.song === file.song.id && w.gate === gate) ?? null);
  const gates = [
    ask("settled", settledObstacles(input, night)),
    ask("covered", coveredObstacles(input, score, names)),
    ask("details", detailObstacles(input, score, names)),
    ask("together", togetherObstacles(file.song.id, runs)),
    ask("slips", slipObstacles(input, score, names)),
    ask("debut", debutObstacles(file.song, runs, playedAtGig)),
  ];
  const first = gates.find((gate) => !gate.ok && gate.waived === null);
  return { ready: first === undefined, gates, first: first === undefined || first.ok ? null : first };
};

/** Form, key, tempo, count-in and ending are filled in; the night's own key and tempo will do. */
const settledObstacles = ({ file }: ScoreInput, night: GigSong | null): readonly Obstacle[] => {
  const { song, sections } = file;
  const open = [
    ...(sections.length === 0 ? ["form"] : []),
    ...((night?.key ?? song.key).trim() === "" ? ["key"] : []),
    ...((night?.tempo ?? song.tempo) === null ? ["tempo"] : []),
    ...(song.countIn.trim() === "" ? ["count-in"] : []),
    ...(song.ending.trim() === "" ? ["ending"] : []),
  ];
  if (open.length === 0) return [];
  const sentence = `${capital(listed(open))} ${open.length === 1 ? "is" : "are"} not settled.`;
  return [{ sentence, names: { song: song.id } }];
};

/** Every needed part that plays has somebody. In column order. */
const coveredObstacles = (input: ScoreInput, { plan }: SongScore, names: Names): readonly Obstacle[] => {
  const place = new Map(input.chairs.map(({ id }, i) => [id, i]));
  return plan.parts
    .filter((part) => part.needed && part.holder === null)
    .sort((a, b) => (place.get(a.chair) ?? 0) - (place.get(b.chair) ?? 0))
    .map(({ chair }) => ({
      sentence: `Nobody is on ${names.chair(chair)}.`,
      names: { song: input.file.song.id, chair },
    }));
};
