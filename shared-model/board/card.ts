import type { Grid, Shape } from "./grid.ts";
import type { Id } from "./ids.ts";

/** What missing the detail costs: must = a wreck, lift = the crowd feels it, polish = the players feel it. */
export type Weight = "must" | "lift" | "polish";
export const WEIGHTS = ["must", "lift", "polish"] as const satisfies readonly Weight[];

/**
 * What a detail is about, in the words players use at rehearsal.
 * `general` is a detail nobody has sorted yet.
 */
export const CARD_KINDS = [
  "general", "count-in", "form", "ending", "stop", "push", "entry", "rest", "groove", "pattern",
  "position", "shape", "register", "tone", "cymbals", "dynamics", "tempo", "feel", "key", "lift",
  "vocal entry", "breath", "harmony", "call", "solo", "fill", "cover", "attitude",
] as const; // biome-ignore format: one glance
export type CardKind = (typeof CARD_KINDS)[number];

/** Where a ruling comes from. */
export const RULING_SOURCES = ["as recorded", "live version", "ours"] as const;
export type RulingSource = (typeof RULING_SOURCES)[number];

/** One place in a song's form. Bars and beats count from 1; absent means the whole section or bar. */
export interface Place {
  readonly section: Id;
  readonly bar?: number;
  readonly beat?: number;
}

/** Where a detail applies. No `from` means the whole song. */
export interface Where {
  readonly from?: Place;
  readonly to?: Place;
  /** Only the nth time the section comes round. */
  readonly pass?: number;
  /** Seconds into the song's named version. */
  readonly clock?: number;
  /** The bar it stood at was taken out of the form: somebody has to say anew where it is. */
  readonly lost?: true;
}

/**
 * What a detail may show beside its words, apart from its grid and its shape, by stored name. What each one holds stands
 * in `sides/detail-sides.ts`, which a phone does without at first.
 */
export const SIDE_NAMES = ["tone", "harmony", "dynamics", "cymbals", "ending", "hand"] as const;
export type SideName = (typeof SIDE_NAMES)[number];

/** A side as it is stored: some record, which `readSide` reads entry by entry. */
export type StoredSide = Readonly<Record<string, unknown>>;

/** One device's version of a text. Versions written without seeing each other stand side by side until settled. */
export interface TextVersion {
  readonly text: string;
  readonly writer: Id;
  /** The person who wrote it, as their device says; empty = unknown. */
  readonly by: Id | "";
  readonly at: number;
}

/** One detail of a song. */
export interface Card {
  readonly id: Id;
  readonly song: Id;
  /** Chairs it belongs to, in the order given. Empty = spotted, not placed yet: it counts for nothing. */
  readonly chairs: readonly Id[];
  readonly weight: Weight;
  readonly kind: CardKind;
  readonly where: Where;
  /** Fractional order key among the song's cards; ties broken by id. */
  readonly order: string;
  /** A cover card applies only while this chair has nobody on it. */
  readonly without?: Id;
  readonly source: RulingSource;
  /** The bar it is about; absent = not written. */
  readonly grid?: Grid;
  /** The bar as it is on the recording; absent = not written. */
  readonly recordedGrid?: Grid;
  /** How it is fretted; absent = not written. */
  readonly shape?: Shape;
  /** What else is written beside its words; absent = nothing. */
  readonly sides?: { readonly [S in SideName]?: StoredSide };
  /** What to do, in the band's own words. */
  readonly text: string;
  /** How everybody hears that it is right. */
  readonly right: string;
  /** Every version nobody has superseded, latest first. More than one wording = a disagreement to settle. */
  readonly versions: { readonly text: readonly TextVersion[]; readonly right: readonly TextVersion[] };
  /** Moment (ms) it was written or last changed with "learn again"; takes before it are no evidence. */
  readonly since: number;
  readonly createdBy: Id;
  readonly createdAt: number;
}

/** A card with several chairs: one player alone cannot lock it in. */
export const isShared = (card: Pick<Card, "chairs">): boolean => card.chairs.length > 1;

/** True while two different wordings stand side by side. */
export const isDisputed = (versions: readonly TextVersion[]): boolean =>
  versions.some((version) => version.text !== versions[0]?.text);
