/** The six gates as lines to read: what each asks, how it stands, what is in the way. */
import type { Waiver } from "../board/band.ts";
import type { GateName } from "../board/gate.ts";
import type { Obstacle } from "../readiness/gate-answer.ts";
import type { GigReady } from "../readiness/gates.ts";

/** What each gate asks for, as a heading. */
export const GATE_WORDS: { readonly [G in GateName]: string } = {
  settled: "Settled",
  covered: "Everybody on",
  details: "Musts locked in",
  together: "Run together",
  slips: "No slip left open",
  debut: "Tried before its first night",
};

/** What stands beside a gate that is passed. */
const PASSED: { readonly [G in GateName]: string } = {
  settled: "Form, key, tempo, count-in and ending are filled in.",
  covered: "Every needed part has a player.",
  details: "Every must is locked in by whoever will play it.",
  together: "A whole run by this line-up counts for the night.",
  slips: "No must slipped the last time it was played.",
  debut: "It has been on stage before, or has two runs that count.",
};

export interface GateLine {
  readonly gate: GateName;
  readonly heading: string;
  readonly stands: "ok" | "waived" | "no";
  /** One sentence: what is in the way first, or that nothing is. */
  readonly sentence: string;
  /** Everything in the way; empty when ok. */
  readonly obstacles: readonly Obstacle[];
  readonly waiver: Waiver | null;
}

/** The gates in the order they are asked. */
export const gateLines = (ready: GigReady): readonly GateLine[] =>
  ready.gates.map((answer): GateLine => {
    const { gate } = answer;
    const heading = GATE_WORDS[gate];
    if (answer.ok) {
      return { gate, heading, stands: "ok", sentence: PASSED[gate], obstacles: [], waiver: null };
    }
    return {
      gate,
      heading,
      stands: answer.waived === null ? "no" : "waived",
      sentence: answer.sentence,
      obstacles: answer.obstacles,
      waiver: answer.waived,
    };
  });
