/** The question an evening asks, and the answer to it. */
import type { Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { GateName } from "../board/gate.ts";
import type { Id } from "../board/ids.ts";
import type { Pin, PlannedBlock } from "../board/rehearsal.ts";
import type { Room } from "./outlook.ts";

/** What one player can do alone before the night. */
export interface Homework {
  readonly member: Id;
  /** Musts first, then by how far it still is. */
  readonly items: readonly { readonly song: Id; readonly card: Card }[];
}

/** One stretch of the evening with its own people. */
export interface Phase extends Room {
  readonly minutes: number;
}

export interface PlanQuestion {
  readonly board: Pick<Board, "songs" | "chairs" | "people" | "band">;
  /** The gig the evening serves; null = none in particular, every song in the book counts alike. */
  readonly gig: Gig | null;
  /** Moment (ms) the scores are for: the end of the gig's day. */
  readonly night: number;
  readonly now: number;
  /** At most two, in their order. */
  readonly phases: readonly Phase[];
  readonly pins: ReadonlyMap<Id, Pin>;
}

export interface PlanLine {
  readonly song: Id;
  readonly phase: number;
  readonly block: PlannedBlock;
  /** The song on the night if nothing is done, and what is to be expected after this; 0 to 1. */
  readonly before: number;
  readonly after: number;
  /** As the song stands now, 0 to 1. */
  readonly today: number;
  /** What the line adds to the plan's value. */
  readonly value: number;
  /** Who and what gains most, at most three. */
  readonly because: readonly {
    readonly of: "card" | "part" | "band";
    readonly card: Card | null;
    readonly member: Id | null;
    readonly gain: number;
  }[];
  /** Gates that say no today and would say yes if all of it works. */
  readonly clears: readonly GateName[];
  /** Players of the night who are not in the room then. */
  readonly missing: readonly Id[];
}

export interface RoomPlan {
  /** In playing order. */
  readonly lines: readonly PlanLine[];
  readonly minutes: number;
  /** Sum of the lines' values. */
  readonly value: number;
  readonly homework: readonly Homework[];
  /** Musts that do not fit into the minutes. */
  readonly refused: readonly Id[];
}
