/** What the demo band wrote beside its details apart from bars and shapes: knobs, voices, levels, cymbals, endings, hands. */
import type { SideName, StoredSide } from "../board/card.ts";
import { describeSide } from "../commands/describe-side.ts";
import type { CardCode, SongCode } from "./demo-data.ts";
import { cardId, chairId, songId } from "./demo-ids.ts";
import { LEADER } from "./people.ts";
import type { Seeder } from "./seeder.ts";

const SIDES: readonly (readonly [CardCode, SideName, StoredSide])[] = [
  ["UT3", "ending", { how: "hit", cue: chairId("Dr"), lastBeat: 1 }],
  ["MD2", "tone", { gain: 4.5, tone: 6, pickup: "bridge" }],
  ["MD3", "hand", { from: 5, to: 7, index: 5, ring: 7 }],
  ["RW1", "ending", { how: "hit", cue: chairId("Dr"), times: 1 }],
  ["QP3", "ending", { how: "cold", cue: chairId("Dr") }],
  ["TC1", "ending", { how: "ritardando", cue: chairId("Ky"), times: 3 }],
  ["TC3", "dynamics", { from: 2, to: 4 }],
  ["TC4", "harmony", { steps: 2, lead: chairId("Vx"), vowel: "ah" }],
  [
    "MM4",
    "tone",
    {
      volume: 5,
      effects: [
        { name: "long echo", on: true },
        { name: "drive", on: false },
      ],
    },
  ],
];

/** Cymbals by the name of the section. */
const CYMBALS: readonly (readonly [CardCode, SongCode, Readonly<Record<string, string>>])[] = [
  ["MD6", "MD", { Break: "floor tom", Ch3: "ride bell" }],
  [
    "WA6",
    "WA",
    { V1: "closed hats", Ch1: "open hats", V2: "closed hats", Ch2: "open hats", Ch3: "open hats" },
  ],
];

/** Written once everything else is there, and nothing has to be learnt again for it. */
export const seedSides = ({ as, calendar, board }: Seeder): void => {
  const then = calendar.at(-9, 21);
  const write = (card: CardCode, side: SideName, value: StoredSide): void =>
    void as(LEADER, then, describeSide, { card: cardId(card), side, value: { ...value } });
  for (const [card, side, value] of SIDES) write(card, side, value);
  for (const [card, song, words] of CYMBALS) {
    const sections = board().songs.get(songId(song))?.sections ?? [];
    const plan = sections.flatMap(({ id, name }) => (words[name] === undefined ? [] : [[id, words[name]]]));
    write(card, "cymbals", { plan: Object.fromEntries(plan) });
  }
};
