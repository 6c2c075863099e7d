/** The published measures of one part of a grid, each with what it says. */
import type { Grid, GridRow } from "../../board/grid.ts";
import { kickOf, patternOf } from "../../music/rhythm/grid-rows.ts";
import { interlock, pushes } from "../../music/rhythm/interlock.ts";
import { density } from "../../music/rhythm/pattern.ts";
import { heldOver, noteToBeatDistance, offBeatness } from "../../music/rhythm/syncopation.ts";

export interface GridNumber {
  readonly label: string;
  readonly value: string;
  /** What the number says, in one sentence. */
  readonly says: string;
}

/** Said once over all of them. */
export const WRITTEN_ONLY =
  "These numbers compare where notes are written. They say nothing about milliseconds, and none of them is better or worse.";

const two = (n: number): string => n.toFixed(2).replace("-", "−");

const withKick = (row: GridRow, grid: Grid): readonly GridNumber[] => {
  const kick = kickOf(grid);
  if (kick === null || row.voice !== undefined) return [];
  const [beat, part] = [patternOf(kick), patternOf(row)];
  const { both, kickAlone, partAlone, meet, beyondChance } = interlock(beat, part);
  const ahead = pushes(part, beat, grid.perBeat);
  const shared = ahead.filter((push) => push.shared).length;
  return [
    { label: "Together", value: String(both.length), says: "Steps on which the kick and this part both begin a note." },
    { label: "Kick alone", value: String(kickAlone.length), says: "Steps on which only the kick does." },
    { label: "Part alone", value: String(partAlone.length), says: "Steps on which only this part does." },
    {
      label: "How far they meet",
      value: two(meet),
      says: "Twice the steps together, over all notes of both (Dice 1945): 1 = always together, 0 = never.",
    },
    {
      label: "Beyond chance",
      value: beyondChance === null ? "none" : two(beyondChance),
      says:
        beyondChance === null
          ? "One of them sounds on every step or on none, so there is nothing to agree on."
          : "The phi coefficient: 1 = the same steps, 0 = as often together as such busy parts would be by chance, −1 = each plays where the other rests.",
    },
    {
      label: "Pushes",
      value: `${shared} with the kick, ${ahead.length - shared} without`,
      says: "Notes one or two steps ahead of a beat that the part itself leaves out.",
    },
  ]; // biome-ignore format: one glance
};

/** All measures of a row; those against the kick for parts only, where the grid has one. */
export const numbersOf = (row: GridRow, grid: Grid): readonly GridNumber[] => {
  const part = patternOf(row);
  return [
    ...withKick(row, grid),
    { label: "Density", value: two(density(part)), says: "Notes per step: 1 = a note on every step." },
    {
      label: "Held over the beat",
      value: String(heldOver(part, grid.perBeat)),
      says: "How much the notes are held over heavier steps than their own (Longuet-Higgins and Lee 1984): 0 = never.",
    },
    {
      label: "Distance from the beat",
      value: two(noteToBeatDistance(part, grid.perBeat)),
      says: "The weighted note-to-beat distance (Gómez and others 2005): 0 = all notes on beats, more = nearer to beats they miss or held over them.",
    },
    {
      label: "Off the even divisions",
      value: String(offBeatness(part)),
      says: "The off-beatness (Toussaint 2013): notes on steps that no even division of the grid touches.",
    },
  ];
};
