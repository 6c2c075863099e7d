/**
 * The constants of the readiness computation as a person may change them: what each does, why it starts where it
 * does, and between which bounds it makes sense. Governing rule: only what differs from the start is stored.
 */
import { DEFAULT_SETTINGS, type Settings } from "../board/settings.ts";
import { CONSTANT_STARTS, constantIn } from "../document/constant-keys.ts";

/** One number of the settings, by its path: `claim.3`, `kindWeight.solo`, `gapSeconds`. */
export interface Constant {
  readonly path: string;
  readonly label: string;
  /** Why it starts where it does. */
  readonly why: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

export interface ConstantGroup {
  readonly title: string;
  readonly constants: readonly Constant[];
}

const constant = (
  path: string,
  label: string,
  why: string,
  [min, max, step]: readonly [number, number, number],
  unit = "",
): Constant => ({ path, label, why, unit, min, max, step });

const SHARE = [0, 1, 0.05] as const;
const BRIGHT = [0, 3, 0.05] as const;

export const CONSTANTS: readonly ConstantGroup[] = [
  {
    title: "What a status is worth",
    constants: [
      constant("claim.1", "Noticed", "Having heard it is a start, not a skill.", SHARE),
      constant("claim.2", "Practised", "Alone at home is not yet against the drums.", SHARE),
      constant("claim.3", "Locked in", "Ticks alone must never look like a band that has played it.", SHARE),
      constant("Hc", "Days until a status counts half", "A claim ages slower than a take.", [1, 1000, 5], "days"),
      constant("k", "Weight of what somebody says", "One clean take together outweighs a tick two to one.", [0.1, 10, 0.1]),
    ],
  },
  {
    title: "What the log is worth",
    constants: [
      constant("a", "Weight of a clean take", "See the weight of what somebody says.", [0, 10, 0.1]),
      constant("kindWeight.solo", "Brightness of solo work", "Fluent alone is not tight together.", BRIGHT),
      constant("kindWeight.drill", "Brightness of a drill", "The joint is right, the song around it was not played.", BRIGHT),
      constant("kindWeight.run", "Brightness of a run", "The measure of the others.", BRIGHT),
      constant("kindWeight.gig", "Brightness of a gig", "On stage counts for more than in the room.", BRIGHT),
      constant("g", "Days one take lights", "A weekly rehearsal counts as fully spaced.", [1, 60, 1], "days"),
      constant("soloCap", "Most that solo work can be worth", "Any amount of it is worth at most one take together.", [0, 5, 0.1], "takes"),
      constant("vNoticed", "A take on a detail nobody has practised", "An unflagged run is weak proof for it.", SHARE),
    ],
  },
  {
    title: "How it fades",
    constants: [
      constant("H0", "Days until the log counts half", "Four weekly takes fade from 94 to 85 % in a month.", [1, 365, 1], "days"),
      constant("d", "Shape of the fading", "A power law: fast at first, then slower.", [0.1, 3, 0.05]),
      constant("fresh.solo", "Freshness of solo work", "What was only played alone starts a little faded.", SHARE),
    ],
  },
  {
    title: "What a slip costs",
    constants: [
      constant("b", "Weight of a slip", "About eight points on a detail that sat.", [0, 5, 0.05]),
      constant("kappa", "How fast clean takes wash it out", "Two of them, spaced, halve it.", [0, 3, 0.05]),
    ],
  },
  {
    title: "What counts how much in a song",
    constants: [
      constant("wBand", "Share of the band together", "A quarter of a song is how it hangs together.", [0, 0.9, 0.05]),
      constant("weights.part", "The part itself", "Knowing the part carries the details.", [0, 20, 0.5]),
      constant("weights.must", "A must", "Missing it is a wreck.", [0, 20, 0.5]),
      constant("weights.lift", "A lift", "The crowd feels it.", [0, 20, 0.5]),
      constant("weights.polish", "Polish", "The players feel it.", [0, 20, 0.5]),
      constant("notNeeded", "A part that is nice to have", "The song stands without it.", SHARE),
    ],
  },
  {
    title: "On the night",
    constants: [
      constant("togetherDays", "Days a run together holds good", "Six weeks untouched want a run.", [1, 365, 1], "days"),
      constant("tempoTolerance", "Distance from the tempo that passes", "Dancers feel four per cent.", [0, 0.5, 0.01]),
      constant("gapSeconds", "Seconds between two songs", "Breath, tuning, a word to the room.", [0, 300, 5], "s"),
      constant("cardsShown", "Details shown in a cell", "More than seven are not read at a glance.", [1, 20, 1]),
    ],
  },
]; // biome-ignore format: one line per constant

/** The value of one constant. */
export const constantValue = (settings: Settings, { path }: Pick<Constant, "path">): number =>
  constantIn(settings, path);

/** Where a constant starts. */
export const constantDefault = (constant: Pick<Constant, "path">): number =>
  constantValue(DEFAULT_SETTINGS, constant);

/** What puts every constant that the band has set itself back to where it starts, as `adjustSettings` takes it. */
export const backToStart = (settings: Settings): Readonly<Record<string, null>> =>
  Object.fromEntries(
    [...CONSTANT_STARTS].flatMap(([key, start]) =>
      constantIn(settings, key) === start ? [] : [[key, null]],
    ),
  );
