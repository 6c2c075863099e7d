/**
 * A song as it stood at an earlier moment, as far as the document itself tells it. Governing rule: what is left out is
 * left out exactly; what the document does not keep is as it is now, and nothing is guessed.
 */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Status } from "../board/status.ts";

/** What a mark replaced, as the device that made it saw it. Scores read the level and the anchor only. */
const markBefore = (mark: Status): Status => ({
  ...mark,
  level: mark.from,
  anchor: mark.fromAnchor,
  at: mark.fromAnchor,
});

/** A claim of before that was raised since and put back by an undo: it stands as it stood. */
const isPutBack = ({ anchor, fromAnchor }: Status, moment: number): boolean =>
  anchor < moment && fromAnchor >= moment;

const marksThen = (marks: ReadonlyMap<Id, Status>, moment: number): ReadonlyMap<Id, Status> =>
  [...marks.values()].every(({ at }) => at < moment)
    ? marks
    : new Map(
        [...marks].map(([member, mark]) => [
          member,
          mark.at < moment || isPutBack(mark, moment) ? mark : markBefore(mark),
        ]),
      );

/**
 * Takes, slips and details from `moment` (ms) on are left out, and marks made since give way to what they replaced.
 * Exact for takes, slips and details that were added. A mark is exact where its player moved it once since then; of
 * several steps only the last is known, so the earlier ones count as made before. Wordings, the song's facts and who sits
 * where are as they are now.
 */
export const songThen = (file: SongFile, moment: number): SongFile => {
  const late = (at: number): boolean => at >= moment;
  const takes = file.takes
    .filter(({ at }) => !late(at))
    .map((take) =>
      take.slips.some(({ at }) => late(at))
        ? { ...take, slips: take.slips.filter(({ at }) => !late(at)) }
        : take,
    );
  const statuses = new Map([...file.statuses].map(([card, marks]) => [card, marksThen(marks, moment)]));
  return { ...file, takes, statuses, cards: file.cards.filter(({ createdAt }) => !late(createdAt)) };
};
