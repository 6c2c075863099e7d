/** Gates about runs: the line-up has played the whole song, recently and right; twice before a debut. */
import type { GigSong } from "../board/band.ts";
import type { Id } from "../board/ids.ts";
import type { Song } from "../board/song.ts";
import type { Take } from "../board/take.ts";
import { DAY } from "./decay.ts";
import type { Obstacle } from "./gate-answer.ts";
import { mustsOf } from "./gate-details.ts";
import { type LoggedTake, readLog, satOn } from "./log.ts";
import { capital, cardName, listed, type Names, takeName } from "./names.ts";
import { cutOf, type ScoreInput } from "./score-input.ts";
import type { SongScore } from "./song-score.ts";

type Fault = () => Obstacle;

/** A whole run or gig, and why it does not count; null = it counts. */
interface Judged {
  readonly take: Take;
  /** Put into words when asked for: of a long log one fault is told. */
  readonly fault: Fault | null;
  /** False when somebody of this line-up was missing. */
  readonly complete: boolean;
}

/** Every whole run and gig up to now, in order of time, each judged against the gig. */
export const judgeRuns = (
  input: ScoreInput,
  score: SongScore,
  night: GigSong | null,
  names: Names,
): readonly Judged[] => {
  const musts = mustsOf(score);
  const needed = new Set(score.plan.parts.flatMap((part) => (part.needed ? [part.chair] : [])));
  const players = input.chairs.flatMap(({ id: chair }) => {
    const holder = input.lineUp.get(chair) ?? null;
    return holder !== null && needed.has(chair) ? [{ chair, holder }] : [];
  });
  return readLog(input.file.song.id, input.file.takes, cutOf(input), input.settings)
    .filter(({ take }) => (take.kind === "run" || take.kind === "gig") && take.scope.of === "whole")
    .map((logged) => {
      const absent = players.filter(({ chair, holder }) => !satOn(logged.take, chair, holder));
      const missing = [...new Set(absent.map(({ holder }) => holder))];
      const faults = { input, logged, musts, missing, night, names };
      return { take: logged.take, fault: faultOf(faults), complete: missing.length === 0 };
    });
};

interface Faults {
  readonly input: ScoreInput;
  readonly logged: LoggedTake;
  readonly musts: ReadonlySet<Id>;
  readonly missing: readonly Id[];
  readonly night: GigSong | null;
  readonly names: Names;
}

const faultOf = ({ input, logged, musts, missing, night, names }: Faults): Fault | null => {
  const { take, cardSlips, unattributed } = logged;
  const { file, settings, t } = input;
  const named = { song: file.song.id, take: take.id };
  /** `how` goes on after the take's name. */
  const not =
    (how: () => string, more: { readonly card?: Id; readonly member?: Id } = {}): Fault =>
    () => ({ sentence: `${capital(takeName(take))} ${how()}`, names: { ...named, ...more } });
  const [first] = missing;
  if (first !== undefined) {
    return not(() => `was without ${listed(missing.map(names.member))}.`, { member: first });
  }
  if (take.feel === "stopped") return not(() => "stopped on the way.");
  const slip = cardSlips.find(({ card }) => card !== null && musts.has(card));
  if (slip?.card) {
    const card = file.cards.find(({ id }) => id === slip.card);
    return not(() => `had a slip on ${card ? cardName(file, card) : "a must"}.`, { card: slip.card });
  }
  if (unattributed > 0) return not(() => "had a slip that nobody could place.");
  const key = night?.key ?? file.song.key;
  const played = keyOf(take, file.song);
  if (key !== "" && played !== key) {
    return not(() => `was in ${played ?? "another key"}; the gig is in ${key}.`);
  }
  const target = night?.tempo ?? file.song.tempo;
  if (
    target !== null &&
    take.tempoEnd !== null &&
    offTempo(take.tempoEnd, target) > settings.tempoTolerance
  ) {
    return not(() => `ended at ${take.tempoEnd}; the target is ${target}.`);
  }
  // t ends the gig day, so whole days between are calendar days.
  if (Math.floor((t - take.at) / DAY) > settings.togetherDays) {
    return not(() => `is more than ${settings.togetherDays} days before the gig.`);
  }
  return null;
};

/** A share of the target; the smallest excess is rounding. */
const offTempo = (end: number, target: number): number => Math.abs(end - target) / target - 1e-9;

/** The key a take was in; null = before the song's key changed, and nobody noted it. */
const keyOf = (take: Take, song: Song): string | null =>
  take.key ?? (take.at >= song.since.key ? song.key : null);

/** A whole take by this line-up that counts. */
export const togetherObstacles = (song: Id, runs: readonly Judged[]): readonly Obstacle[] => {
  if (runs.some(({ fault }) => fault === null)) return [];
  const nearest = runs.findLast(({ complete }) => complete) ?? runs.at(-1);
  const fault = nearest?.fault?.();
  return fault
    ? [{ ...fault, sentence: `No run together yet that counts. ${fault.sentence}` }]
    : [{ sentence: "No whole run by this line-up is in the log.", names: { song } }];
};

/** A song never played at a gig needs two takes that count, on different days. */
export const debutObstacles = (song: Song, runs: readonly Judged[], gigs: boolean): readonly Obstacle[] => {
  if (song.playedBefore || gigs) return [];
  const good = runs.filter(({ fault }) => fault === null).map(({ take }) => take);
  const days = new Set(good.map((take) => take.occasion)).size;
  if (days >= 2) return [];
  const last = good.at(-1);
  return [
    last === undefined
      ? {
          sentence: "Never played at a gig: two runs that count are needed, on different days.",
          names: { song: song.id },
        }
      : {
          sentence: `Never played at a gig: after ${takeName(last)}, one more run that counts is needed, on another day.`,
          names: { song: song.id, take: last.id },
        },
  ];
};
