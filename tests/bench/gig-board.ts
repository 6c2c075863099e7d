/** The board that gigs are measured on: the full-size one, with songs that differ, deps, and two nights on top. */

import { addPerson } from "#shared/commands/add-person.ts";
import { arrangeGig } from "#shared/commands/arrange-gig.ts";
import { callSongs } from "#shared/commands/call-song.ts";
import { planGig, reviseGig } from "#shared/commands/plan-gig.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { addDays } from "#shared/lib/calendar.ts";
import { seeded } from "#shared/lib/seeded.ts";
import type { OtherDevice } from "#tests/support/other-device.ts";
import { FULL_SIZE, songOf } from "#tests/support/seed-full.ts";

/** A night of every song in three blocks, and one that leaves ten songs to swap in. */
export const NIGHTS = [
  { name: "Every song", songs: FULL_SIZE.songs, blocks: [85, 85, 85] },
  { name: "Ten to spare", songs: FULL_SIZE.songs - 10, blocks: [40, 40, 40] },
] as const;
export const DEPS = ["Dep One", "Dep Two"] as const;

const KEYS = ["C", "A", "Em", "D", "G", "Am"] as const;
const FLOORS = ["fills", "holds", "slow", "seated", ""] as const;

/** Writes all of it from another device; gives the ids of the nights, in their order. */
export const planNights = ({ run, board }: OtherDevice): readonly string[] => {
  const random = seeded(21);
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)] as T;
  for (let s = 0; s < FULL_SIZE.songs; s++) {
    const fields = {
      key: pick(KEYS),
      tempo: Math.round(60 + random() * 120),
      length: Math.round(170 + random() * 140),
      energy: 1 + Math.floor(random() * 5),
      floor: pick(FLOORS),
      tuning: random() < 0.2 ? "drop D" : "",
      rig: random() < 0.1 ? "acoustic guitar" : "",
      hardToSing: random() < 0.3,
    };
    run(reviseSong, { song: songOf(s), fields });
  }
  for (const name of DEPS) run(addPerson, { name, dep: true });
  const [first] = board().gigs;
  if (first === undefined) throw new Error("The board has no gig to count from.");
  return NIGHTS.map(({ name, songs, blocks }, i) => {
    const minutes = blocks.reduce((sum: number, each) => sum + each, 0);
    run(planGig, { name, date: addDays(first.date, i + 1), minutes });
    const gig = board().gigs.find((each) => each.name === name)?.id ?? "";
    run(callSongs, { gig, songs: Array.from({ length: songs }, (_, s) => songOf(s)) });
    const placed = Array.from({ length: blocks.length }, (_, b) =>
      Array.from({ length: songs }, (_, s) => songOf(s)).filter((_, s) => s % blocks.length === b),
    );
    run(reviseGig, { gig, blocks: [...blocks] });
    run(arrangeGig, { gig, blocks: placed });
    return gig;
  });
};
