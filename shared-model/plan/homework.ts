/** What each player can do alone before the night: room time is for shared work. */
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { lineUpFor } from "../board/line-up.ts";
import { scoreSong } from "../readiness/song-score.ts";
import type { Homework, PlanQuestion } from "./evening-plan.ts";

/** More than this nobody does between two rehearsals (common practice). */
const ITEMS_AT_MOST = 6;
const RANK = { must: 0, lift: 1, polish: 2 } as const;

/** Details of one chair alone that their player has not locked in, of the gig's songs, by player in the order of the board. */
export const homeworkOf = ({
  board,
  gig,
  now,
}: Omit<PlanQuestion, "phases" | "pins" | "night">): readonly Homework[] => {
  const found = new Map<Id, { song: Id; card: Card; r: number }[]>();
  for (const { song } of gig?.songs ?? []) {
    const file = board.songs.get(song);
    if (file === undefined) continue;
    const input = {
      file,
      chairs: board.chairs,
      lineUp: lineUpFor(board, file, gig),
      settings: board.band.settings,
      t: now,
      asOf: now,
    };
    for (const { unit, status, ownR } of scoreSong(input).units) {
      const { card, member } = unit;
      if (card === null || member === null || unit.chairs.length > 1 || card.weight === "polish") continue;
      if ((status?.level ?? 0) >= 3) continue;
      found.set(member, [...(found.get(member) ?? []), { song, card, r: ownR }]);
    }
  }
  return [...board.people.keys()].flatMap((member) => {
    const items = (found.get(member) ?? []).sort(
      (a, b) => RANK[a.card.weight] - RANK[b.card.weight] || a.r - b.r || (a.card.id < b.card.id ? -1 : 1),
    );
    return items.length === 0
      ? []
      : [{ member, items: items.slice(0, ITEMS_AT_MOST).map(({ song, card }) => ({ song, card })) }];
  });
};
