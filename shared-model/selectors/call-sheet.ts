/**
 * What everybody takes along to a gig on one page: when and where, who plays, what in which order.
 * Governing rule: nothing that is for the band alone, no score and no remark, as it may lie on a bar.
 */
import type { Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { seatKept, seatMeant } from "../board/line-up.ts";
import { formatLength } from "../music/duration.ts";
import { listed, namesOf } from "../readiness/names.ts";
import { readOrder, songWords } from "./order-words.ts";
import { orderBrief, orderOf } from "./running-order.ts";

/** One line of facts: `Everybody there at`, `17:30`. */
export interface CallFact {
  readonly label: string;
  readonly text: string;
}

export interface CallRow {
  readonly song: Id;
  readonly title: string;
  /** From the start of the block, `4:05`. */
  readonly startsAt: string;
  /** Key, tempo, tuning and capo of that night. */
  readonly played: string;
  /** Who sings lead; empty = nobody. */
  readonly lead: string;
}

export interface CallBlock {
  /** `45:10 of 45:00`. */
  readonly length: string;
  readonly rows: readonly CallRow[];
}

export interface CallSheet {
  /** Those that are said. */
  readonly facts: readonly CallFact[];
  /** Chair and player, in the order of the board; `nobody` where a chair is empty. */
  readonly lineUp: readonly CallFact[];
  readonly blocks: readonly CallBlock[];
}

const factsOf = ({ place, call, start, dress, contact, blocks, minutes }: Gig): readonly CallFact[] =>
  [
    { label: "Place", text: place },
    { label: "Everybody there at", text: call },
    { label: "Playing from", text: start },
    {
      label: "Minutes",
      text: blocks.length > 1 ? `${listed(blocks.map(String))}, ${minutes} in all` : String(minutes),
    },
    { label: "Dress", text: dress },
    { label: "Whom to ring", text: contact },
  ].filter(({ text }) => text !== "");

/** Reads a gig's call sheet. Songs that are off the board are left out. */
export const callSheet = (board: Board, gig: Gig): CallSheet => {
  const names = namesOf(board);
  // No song is called ready here, so that only those which are called come along.
  const brief = orderBrief({ board, gig, reading: () => null });
  const songs = new Map(brief.songs.map((song) => [song.id, song]));
  const rowsOf = ({ rows }: ReturnType<typeof readOrder>[number]): readonly CallRow[] =>
    rows.flatMap(({ song, startsAt }) => {
      const facts = songs.get(song);
      const title = board.songs.get(song)?.song.title;
      if (facts === undefined || title === undefined) return [];
      const lead = facts.lead === null ? "" : names.member(facts.lead);
      return [{ song, title, startsAt: formatLength(startsAt), played: songWords(facts), lead }];
    });
  return {
    facts: factsOf(gig),
    lineUp: board.chairs.map((chair) => {
      const player = seatKept(seatMeant(chair, gig), board, gig);
      return { label: chair.name, text: player === null ? "nobody" : names.member(player) };
    }),
    blocks: readOrder(orderOf(gig), brief, names).map((block) => ({
      length: `${formatLength(block.seconds)} of ${block.minutes}:00`,
      rows: rowsOf(block),
    })),
  };
};
