/** What a song's grids are written as, read by what reads other people's files: both formats say the same hits. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { GridScore } from "#shared/exchange/grid-score.ts";
import { writeMidi } from "#shared/exchange/grids-midi.ts";
import { writeMusicXml } from "#shared/exchange/grids-musicxml.ts";
import { readScore } from "#shared/exchange/score/read-score.ts";
import type { ScoreFacts } from "#shared/exchange/score/score-facts.ts";
import { isCompound } from "#shared/music/metre.ts";
import { laws } from "#tests/support/fuzz.ts";
import { gridScores, scoreOf } from "#tests/support/grid-scores.ts";
import { drain } from "#tests/support/score/write-midi.ts";

const read = (bytes: Uint8Array): ScoreFacts => {
  const result = drain(readScore(bytes));
  if (!result.ok) throw new Error(result.error);
  return result.value;
};
const both = (score: GridScore): readonly [ScoreFacts, ScoreFacts] => [
  read(writeMidi(score)),
  read(new TextEncoder().encode(writeMusicXml(score, "2026-03-05"))),
];

/** Places of the hits of each thing that is played, in crotchets, ascending. */
const hitsOf = ({ bars, parts }: ScoreFacts): ReadonlyMap<string, readonly number[]> => {
  const hits = new Map<string, number[]>();
  for (const { percussion, notes } of parts) {
    for (const { bar, beat, pitch } of notes) {
      const thing = `${percussion ? "kit" : "note"} ${pitch}`;
      hits.set(thing, [...(hits.get(thing) ?? []), (bars[bar]?.start ?? 0) + beat]);
    }
  }
  return new Map([...hits].map(([thing, places]) => [thing, places.sort((x, y) => x - y)]));
};
/** A hit this near before a bar line is read from a MIDI file as on it, because hands are early. */
const EARLY = 1 / 16 + 1e-9;

test("[FILE-1] MIDI and MusicXML of any song's grids have the same hits", () => {
  fc.assert(
    fc.property(
      gridScores.filter(({ blocks }) =>
        blocks.some(({ lines }) => lines.some(({ notes }) => notes.length > 0)),
      ),
      (score) => {
        const [midi, xml] = both(score);
        const bars = score.blocks.reduce((sum, block) => sum + block.bars, 0);
        expect(xml.bars.length).toBe(bars);
        // What is empty at the end of a MIDI file is left out by the reader.
        expect(midi.bars.length).toBeLessThanOrEqual(bars);
        const [ours, theirs] = [hitsOf(midi), hitsOf(xml)];
        expect([...theirs.keys()].sort()).toEqual([...ours.keys()].sort());
        const meant = score.blocks.flatMap(({ lines }) => lines.flatMap(({ notes }) => notes));
        expect([...ours.values()].flat().length).toBe(meant.length);
        for (const [thing, places] of ours) {
          const others = theirs.get(thing) ?? [];
          expect(others.length).toBe(places.length);
          const off = places.map((place, n) => Math.abs(place - (others[n] ?? Number.NaN)));
          expect(Math.max(...off)).toBeLessThanOrEqual(EARLY);
        }
        const [block] = score.blocks;
        if (block === undefined) return;
        const crotchets = (block.tempo * 4 * (isCompound(block.metre) ? 3 : 1)) / block.metre.unit;
        // What no band counts is taken for a mistake by the reader.
        if (crotchets < 20 || crotchets > 400) return;
        expect(midi.tempos[0]?.quarters).toBeCloseTo(crotchets, 1);
        expect(xml.tempos[0]?.quarters).toBeCloseTo(crotchets, 3);
      },
    ),
    laws(40),
  );
});

test("places, key and what plays come back", () => {
  const score = scoreOf([
    ["Dr", "kick", "X.....x.....x..."],
    ["Bs", undefined, "x-----x-------.."],
  ]);
  for (const facts of both(score)) {
    expect(facts.marks).toEqual([{ bar: 0, name: "Verse b1" }]);
    expect(facts.keys).toMatchObject([{ bar: 0, signature: 1, mode: "minor" }]);
    expect(facts.bars.map(({ metre }) => metre)).toEqual(["4/4"]);
    expect(facts.parts.map(({ percussion, notes }) => [percussion, notes.map(({ pitch }) => pitch)])).toEqual(
      [
        [false, [28, 28]],
        [true, [36, 36, 36]],
      ],
    );
  }
});
