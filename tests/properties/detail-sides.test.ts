/** What a detail shows beside its words: whatever is stored is read, and every value that is taken has words. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { SIDE_NAMES, type SideName } from "#shared/board/card.ts";
import { emptySide, readSide, sideFault, sideWords } from "#shared/board/sides/detail-sides.ts";
import { exportBoard, parseBoardFile } from "#shared/exchange/board-json.ts";
import { smallBand } from "#tests/support/command-bench.ts";
import { anySide, sideValue } from "#tests/support/side-values.ts";

const SECTIONS = [
  { id: "verse", name: "Verse" },
  { id: "chorus", name: "Chorus" },
];
const IDS = [...SECTIONS.map(({ id }) => id), "gone"];
const NAMES = { chair: (id: string) => id, sections: SECTIONS };
const name = fc.constantFrom(...SIDE_NAMES);

const cardOf = (trial: ReturnType<typeof smallBand>) =>
  trial
    .board()
    .songs.get("diesel")
    ?.cards.find(({ id }) => id === "choke");

test("[DOC-1] whatever stands for a side, the card is read, and what fits of it is a value that would be taken", () => {
  const trial = smallBand();
  const text = cardOf(trial)?.text;
  const half = name.chain((side) =>
    fc
      .tuple(sideValue(side, IDS), fc.jsonValue(), fc.nat(9))
      .map(([value, noise, at]) =>
        Object.fromEntries(
          Object.entries(value).map(([key, entry], i) => [key, i === at ? noise : entry] as const),
        ),
      ),
  );
  fc.assert(
    fc.property(name, fc.oneof(fc.jsonValue(), half), (side, stored) => {
      trial.document.transact("foreign", (set) =>
        set("cards", `choke/${side}`, JSON.parse(JSON.stringify(stored))),
      );
      const card = cardOf(trial);
      expect(card?.text).toBe(text);
      const value = readSide(side, card?.sides?.[side]);
      if (value !== null) expect(sideFault(side, value)).toBeNull();
    }),
    { numRuns: 1000 },
  );
});

test("every value that is taken has one sentence of words and survives JSON", () => {
  fc.assert(
    fc.property(anySide(IDS), ({ side, value }) => {
      const said = sideWords(side, value, NAMES);
      expect(said).toMatch(/^[^\n]{3,}\.$/);
      expect(said).not.toMatch(/null|undefined|\[object/);
      expect(readSide(side, value)).toEqual(value);
      expect(readSide(side, JSON.parse(JSON.stringify(value)))).toEqual(value);
    }),
    { numRuns: 2000 },
  );
});

test("whatever is refused is refused with a sentence, and nothing throws", () => {
  const field = fc.dictionary(
    fc.constantFrom("gain", "effects", "plan", "steps", "from", "to", "how", "cutWord", "cue"),
    fc.jsonValue(),
  );
  fc.assert(
    fc.property(name, field, (side, stored) => {
      const fault = sideFault(side, stored);
      if (fault === null) expect(readSide(side, stored)).not.toBeNull();
      else expect(fault).toMatch(/^[A-Z].+\.$/);
    }),
    { numRuns: 2000 },
  );
});

test("[CMD-1] a side is read back as it was written, leaves the others alone, is exported, and is taken back", () => {
  const trial = smallBand();
  fc.assert(
    fc.property(anySide(IDS), ({ side, value }) => {
      const before = cardOf(trial);
      const written = trial.done("describeSide", { card: "choke", side, value });
      expect(cardOf(trial)).toEqual({ ...before, sides: { ...before?.sides, [side]: value } });
      const file = parseBoardFile(exportBoard(trial.document, "2026-03-04").text);
      const cards = file.ok ? new Map(file.value.maps.get("cards")) : new Map();
      expect(cards.get(`choke/${side}`)).toEqual(value);
      if (value.gain !== 3) trial.done("takeBack", { written: [...written] });
      if (value.gain !== 3) expect(cardOf(trial)).toEqual(before);
    }),
    { numRuns: 60 },
  );
});

describe("a side's sentence", () => {
  test.each<readonly [SideName, object, string]>([
    [
      "tone",
      { gain: 6.5, volume: 7, pickup: "bridge", effects: [{ name: "echo", on: true }, { name: "drive", on: false }] },
      "Gain 6.5, volume 7 of 10; bridge pickup; echo on, drive off.",
    ],
    ["tone", { effects: [{ name: "tremolo", on: true }] }, "Tremolo on."],
    ["harmony", { steps: 2, lead: "Lead voice", vowel: "ah" }, "A third above Lead voice; sung on ‘ah’."],
    ["harmony", { steps: -7, cutBeat: 4.5, cutWord: "night" }, "An octave below the lead; cut off on beat 4 and after ‘night’."],
    ["dynamics", { from: 2, to: 4 }, "Grows from piano (p) to forte (f); level 2 to 4 of 5."],
    ["dynamics", { from: 5, to: 1 }, "Falls from fortissimo (ff) to pianissimo (pp); level 5 to 1 of 5."],
    ["dynamics", { from: 3 }, "Mezzo forte (mf); level 3 of 5."],
    ["cymbals", { plan: { chorus: "ride", verse: "closed hats", gone: "crash" } }, "Closed hats in Verse; ride in Chorus."],
    ["cymbals", { plan: { gone: "crash" } }, "The sections this was written for are no longer in the form."],
    ["ending", { how: "ritardando", cue: "Keys", lastBeat: 1 }, "Ritardando: slows into the end; last note on beat 1; cue from Keys."],
    ["hand", { from: 5, to: 8, index: 5, ring: 7 }, "Hand from fret 5 to 8; index finger on 5, ring finger on 7."],
  ])("%s %j", (side, stored, words) => {
    const value = readSide(side, { ...stored });
    expect(value && sideWords(side, value, NAMES)).toBe(words);
  }); // biome-ignore format: one sentence a line
});

describe("[CMD-3] what a hand gets wrong", () => {
  test.each<readonly [SideName, object, RegExp]>([
    ["tone", { gain: 11 }, /“gain” a number, in halves, from 0 to 10/],
    ["tone", { gain: 0.3 }, /in halves/],
    ["tone", { effects: [{ name: " ", on: true }] }, /Name every effect/],
    ["tone", { effects: [{ name: "Echo", on: true }, { name: "echo ", on: true }] }, /same name/],
    ["tone", { effects: Array.from({ length: 7 }, (_, i) => ({ name: `e${i}`, on: true })) }, /at most 6/],
    ["harmony", { cutWord: "two words" }, /one word/],
    ["hand", { from: 5 }, /from which fret to which/],
    ["hand", { from: 5, to: 4 }, /in order/],
    ["hand", { from: 5, to: 8, index: 4 }, /between fret 5 and fret 8/],
    ["hand", { from: 5, to: 8, index: 7, ring: 6 }, /index lowest/],
    ["cymbals", { plan: { verse: "gong" } }, /for each section/],
    ["ending", {}, /at least one thing for the ending/],
  ])("%s %j", (side, stored, sentence) => {
    expect(sideFault(side, { ...stored })).toMatch(sentence);
    expect(readSide(side, { ...emptySide(side) })).toBeNull();
  }); // biome-ignore format: one fault a line
});
