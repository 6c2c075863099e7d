/** The score of one unit: what its player says and what the log shows, mixed like a Beta prior with k pseudo-takes. */
import type { Settings } from "../board/settings.ts";
import type { Level } from "../board/status.ts";
import { TAKE_KINDS } from "../board/take.ts";
import { fade } from "./decay.ts";
import type { UnitEvidence } from "./weigh.ts";

/** What a player says about a unit. */
export interface Claim {
  /** Effective level. */
  readonly level: Level;
  /** Moment (ms) it was last raised or re-confirmed; −∞ when it never was. */
  readonly anchor: number;
}

export interface OwnScore {
  /** Probability-like, 0 to 1: said + shown. */
  readonly r: number;
  /** kc/D: the player's claim. */
  readonly said: number;
  /** A/D: the log. */
  readonly shown: number;
  /** k(1−c)/D: neither said nor shown yet. */
  readonly unsaid: number;
  /** B/D: slips not washed out. */
  readonly slipped: number;
  /** What the log shows, a·N·F. */
  readonly A: number;
  /** What slips hold against it. */
  readonly B: number;
  /** What the claim is worth today. */
  readonly c: number;
  /** k + A + B. */
  readonly D: number;
  /** Clean practice, in full takes. */
  readonly N: number;
  /** Freshness of the log, 0 to 1. */
  readonly F: number;
}

/**
 * Scores one unit at `t` (ms). `v` dims the log where nobody claims the detail yet (Settings.vNoticed), else 1.
 * Time can only lower the result: the claim ages from its anchor or the last clean take, the log from its freshest
 * take, and slips do not age at all; only clean takes wash them out.
 */
export const scoreUnit = (
  evidence: UnitEvidence,
  claim: Claim,
  v: number,
  settings: Settings,
  t: number,
): OwnScore => {
  const N = Math.min(v * evidence.lit, v * evidence.litTogether + settings.soloCap);
  const F = freshness(evidence, settings, t);
  const A = settings.a * N * F;
  const B = settings.b * slipLoad(evidence, v, settings.kappa);
  const c = claimToday(evidence, claim, settings, t);
  const D = settings.k + A + B;
  const said = (settings.k * c) / D;
  const shown = A / D;
  return {
    r: said + shown,
    said,
    shown,
    unsaid: (settings.k * (1 - c)) / D,
    slipped: B / D,
    A,
    B,
    c,
    D,
    N,
    F,
  };
};

const freshness = ({ latest }: UnitEvidence, { fresh, H0, d }: Settings, t: number): number => {
  let best = 0;
  // Within one kind the last take is the freshest; a kind that another beats in both respects is left out.
  for (const kind of TAKE_KINDS) {
    if (latest[kind] === Number.NEGATIVE_INFINITY || fresh[kind] <= best) continue;
    const beaten = TAKE_KINDS.some((other) => latest[other] > latest[kind] && fresh[other] >= fresh[kind]);
    if (!beaten) best = Math.max(best, fresh[kind] * fade(latest[kind], t, H0, d));
  }
  return best;
};

const slipLoad = (evidence: UnitEvidence, v: number, kappa: number): number => {
  let load = 0;
  for (const slip of evidence.slips) load += slip.severity * Math.exp(-kappa * v * slip.litAfter);
  return load;
};

const claimToday = (evidence: UnitEvidence, claim: Claim, settings: Settings, t: number): number => {
  const worth = settings.claim[claim.level];
  if (worth === 0) return 0;
  return worth * fade(Math.max(Math.min(claim.anchor, t), evidence.lastClean), t, settings.Hc, settings.d);
};
