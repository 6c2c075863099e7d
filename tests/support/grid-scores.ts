/** Songs with grids, at random: any metre, division, place, chair and sign. */
import fc from "fast-check";
import type { Chair } from "#shared/board/band.ts";
import type { Card } from "#shared/board/card.ts";
import { GRID_VOICES, type Grid, type GridVoice } from "#shared/board/grid.ts";
import { type GridScore, gridScore } from "#shared/exchange/grid-score.ts";
import { formatKey, keyWithSignature } from "#shared/music/key.ts";
import { smallBand } from "./command-bench.ts";

const file = smallBand().board().songs.get("diesel");
if (file === undefined) throw new Error("the small band plays no song");
const { song, sections } = file;
const [card] = file.cards;
if (card === undefined) throw new Error("the song has no detail");

const chair = (id: string, instrument: Chair["instrument"]): Chair => ({
  id,
  name: `Chair ${id}`,
  short: id,
  instrument,
  holder: null,
  order: "a0",
});
export const CHAIRS: readonly Chair[] = [
  chair("Gt", "guitar"),
  chair("Bs", "bass"),
  chair("Dr", "drums"),
  chair("Vx", "lead voice"),
];

const METRES = [
  "4/4",
  "3/4",
  "2/2",
  "6/8",
  "12/8",
  "9/16",
  "7/8",
  "3+2+2/8",
  "5/4",
  "1/4",
  "4/1",
  "3/32",
  "",
];
const VOICES = [undefined, undefined, ...GRID_VOICES];

const grid: fc.Arbitrary<Grid> = fc
  .tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 6 }))
  .filter(([perBeat, beats]) => perBeat * beats >= 4 && perBeat * beats <= 24)
  .chain(([perBeat, beats]) => {
    const row = fc.record({
      chair: fc.constantFrom("Gt", "Bs", "Dr", "Dr", "Vx", "gone"),
      voice: fc.constantFrom(...VOICES),
      hits: fc.string({
        unit: fc.constantFrom(".", ".", "x", "X", "o", "-", "-"),
        minLength: perBeat * beats,
        maxLength: perBeat * beats,
      }),
    });
    const rows = fc.array(row, { minLength: 1, maxLength: 3 });
    return rows.map((all) => ({ steps: perBeat * beats, perBeat, rows: all }));
  });

const where: fc.Arbitrary<Card["where"]> = fc.constantFrom(
  {},
  { clock: 92 },
  { from: { section: "verse", bar: 3 } },
  { from: { section: "verse", bar: 8 }, to: { section: "outro", bar: 1 } },
  { from: { section: "outro" }, to: { section: "verse" } },
  { from: { section: "gone" } },
);

/** A score of one or two grids. */
export const gridScores: fc.Arbitrary<GridScore> = fc
  .record({
    metre: fc.constantFrom(...METRES),
    tempo: fc.option(fc.integer({ min: 20, max: 400 })),
    key: fc.option(fc.integer({ min: -7, max: 7 })),
    mode: fc.constantFrom("major" as const, "minor" as const),
    title: fc.string({ unit: "binary", maxLength: 12 }),
    cards: fc.array(fc.record({ grid, where, text: fc.string({ unit: "grapheme", maxLength: 12 }) }), {
      minLength: 1,
      maxLength: 2,
    }),
  })
  .map(({ metre, tempo, key, mode, title, cards }) =>
    gridScore(
      {
        song: {
          ...song,
          title,
          metre,
          tempo,
          key: key === null ? "" : formatKey(keyWithSignature(key, mode)),
        },
        sections,
        cards: cards.map((one) => ({ ...card, ...one })),
      },
      CHAIRS,
    ),
  );

/** A song with one grid, as it would be written: `rows` are chair, voice and signs. */
export const scoreOf = (
  rows: readonly (readonly [chair: string, voice: GridVoice | undefined, hits: string])[],
  more: {
    readonly perBeat?: number;
    readonly metre?: string;
    readonly key?: string;
    readonly tempo?: number | null;
    readonly where?: Card["where"];
    /** What the verse has of its own. */
    readonly verse?: { readonly metre?: string; readonly tempo?: number; readonly key?: string };
  } = {},
): GridScore =>
  gridScore(
    {
      song: {
        ...song,
        metre: more.metre ?? "4/4",
        key: more.key ?? "Em",
        tempo: more.tempo === undefined ? 112 : more.tempo,
      },
      sections: sections.map((section) => (section.id === "verse" ? { ...section, ...more.verse } : section)),
      cards: [
        {
          ...card,
          where: more.where ?? { from: { section: "verse", bar: 1 } },
          grid: {
            steps: rows[0]?.[2].length ?? 0,
            perBeat: more.perBeat ?? 4,
            rows: rows.map(([id, voice, hits]) => ({ chair: id, voice, hits })),
          },
        },
      ],
    },
    CHAIRS,
  );
