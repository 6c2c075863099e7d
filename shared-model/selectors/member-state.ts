import type { Id } from "../board/ids.ts";
import type { Role } from "../commands/command.ts";
import { scoreMember } from "../readiness/member-score.ts";
import type { SongScore } from "../readiness/song-score.ts";

/** A member's mean over songs today and on the night, 0 to 1; null where they play in none of them. */
export interface MemberState {
  readonly today: number;
  readonly night: number;
}

/** A score object never changes, so what was read from it holds as long as it does. */
const known = new WeakMap<SongScore, Map<Id, number | null>>();

const scoreOf = (song: SongScore, member: Id): number | null => {
  const scores = known.get(song) ?? new Map<Id, number | null>();
  known.set(song, scores);
  const before = scores.get(member);
  if (before !== undefined) return before;
  const score = scoreMember(song, member);
  scores.set(member, score);
  return score;
};

const meanOf = (songs: readonly SongScore[], member: Id): number | null => {
  const scores = songs.flatMap((song) => scoreOf(song, member) ?? []).sort((a, b) => a - b);
  return scores.length === 0 ? null : scores.reduce((sum, score) => sum + score, 0) / scores.length;
};

/** Reads a member's state over the songs shown. */
export const memberState = (
  songs: readonly { readonly today: SongScore; readonly night: SongScore }[],
  member: Id,
): MemberState | null => {
  const today = meanOf(
    songs.map((song) => song.today),
    member,
  );
  const night = meanOf(
    songs.map((song) => song.night),
    member,
  );
  return today === null || night === null ? null : { today, night };
};

/** A member's state is shown to that member and to the leader, and to nobody else. */
export const maySeeMember = (
  author: { readonly member: Id | null; readonly role: Role },
  member: Id | null,
): member is Id => member !== null && (author.role === "leader" || author.member === member);
