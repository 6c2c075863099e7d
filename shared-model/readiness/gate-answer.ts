import type { Waiver } from "../board/band.ts";
import type { GateName } from "../board/gate.ts";
import type { Id } from "../board/ids.ts";

/** What a "no" points at, so that a screen can open it in one tap. */
export interface Named {
  readonly song: Id;
  readonly card?: Id;
  readonly member?: Id;
  readonly chair?: Id;
  /** Id of a take in the log. */
  readonly take?: string;
}

/** One thing in the way: a sentence for people, and what it names. */
export interface Obstacle {
  readonly sentence: string;
  readonly names: Named;
}

export type GateAnswer =
  | { readonly gate: GateName; readonly ok: true }
  | (Obstacle & {
      readonly gate: GateName;
      readonly ok: false;
      /** Everything in the way, the first one included. */
      readonly obstacles: readonly Obstacle[];
      /** Set when the leader let it pass: then it counts as passed and is shown as waived. */
      readonly waived: Waiver | null;
    });

/** Ok when nothing is in the way. */
export const answer = (gate: GateName, obstacles: readonly Obstacle[], waived: Waiver | null): GateAnswer => {
  const [first] = obstacles;
  return first === undefined
    ? { gate, ok: true }
    : { gate, ok: false, sentence: first.sentence, names: first.names, obstacles, waived };
};
