/**
 * Constants of the readiness computation. Starting values and band settings, not truths:
 * fitted on simulated bands; the forgetting constants come from studies of other skills.
 */
export interface Settings {
  /** What a claim at each level is worth; index by Level. Ticks alone never exceed the last. */
  readonly claim: readonly [number, number, number, number];
  /** Weight of the claim, in pseudo-takes. */
  readonly k: number;
  /** Weight of one fully lit clean take. */
  readonly a: number;
  /** Days one clean take lights. */
  readonly g: number;
  /** Days until the log's freshness halves. */
  readonly H0: number;
  /** Exponent of the power law of forgetting. */
  readonly d: number;
  /** Days until a claim halves. */
  readonly Hc: number;
  /** Weight of one slip. */
  readonly b: number;
  /** How fast later clean takes wash a slip out. */
  readonly kappa: number;
  /** Brightness of a clean take by kind. */
  readonly kindWeight: {
    readonly solo: number;
    readonly drill: number;
    readonly run: number;
    readonly gig: number;
  };
  /** Freshness ceiling by kind. */
  readonly fresh: {
    readonly solo: number;
    readonly drill: number;
    readonly run: number;
    readonly gig: number;
  };
  /** Most that solo work can light, in band takes. */
  readonly soloCap: number;
  /** Brightness of a clean take on a card nobody claims to have practised. */
  readonly vNoticed: number;
  /** Share of the song that belongs to the band together. */
  readonly wBand: number;
  /** Weights inside a part before normalising. */
  readonly weights: {
    readonly part: number;
    readonly must: number;
    readonly lift: number;
    readonly polish: number;
  };
  /** Factor on the share of a part that is not needed. */
  readonly notNeeded: number;
  /** A run together counts for the gate at most this many days before the gig. */
  readonly togetherDays: number;
  /** Allowed distance of the measured ending tempo from the target, as a share. */
  readonly tempoTolerance: number;
  /** Seconds between two songs on stage. */
  readonly gapSeconds: number;
  /** Musts and lifts shown in a cell before the rest folds. */
  readonly cardsShown: number;
}

export const DEFAULT_SETTINGS: Settings = {
  claim: [0, 0.3, 0.45, 0.6],
  k: 1,
  a: 2,
  g: 7,
  H0: 21,
  d: 0.7,
  Hc: 120,
  b: 0.5,
  kappa: 0.35,
  kindWeight: { solo: 0.6, drill: 0.8, run: 1, gig: 1.25 },
  fresh: { solo: 0.9, drill: 1, run: 1, gig: 1 },
  soloCap: 1,
  vNoticed: 0.5,
  wBand: 0.25,
  weights: { part: 3, must: 4, lift: 2, polish: 1 },
  notNeeded: 0.35,
  togetherDays: 45,
  tempoTolerance: 0.04,
  gapSeconds: 20,
  cardsShown: 7,
};
