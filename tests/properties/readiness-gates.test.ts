import fc from "fast-check";
import { expect, test } from "vitest";
import type { Gig } from "#shared/board/band.ts";
import { GATES } from "#shared/board/gate.ts";
import { gigReady } from "#shared/readiness/gates.ts";
import type { Names } from "#shared/readiness/names.ts";
import { laws } from "#tests/support/fuzz.ts";
import { CHAIRS, history, MEMBERS, SONG, slip, withFile } from "#tests/support/histories.ts";
import { readySong } from "#tests/support/ready-song.ts";

const names: Names = { member: (id) => `member ${id}`, chair: (id) => `chair ${id}` };

/** Histories near a yes, so that laws about answers are not only asked of a no. */
const nearlyReady = fc.oneof(history, readySong);

test("[GATE-1] flagging a slip on a must never turns a NO into a YES", () => {
  const withMusts = nearlyReady.filter(
    ({ file }) => file.takes.length > 0 && file.cards.some((card) => card.weight === "must"),
  );
  const flagged = withMusts.chain((input) => {
    const musts = input.file.cards.filter((card) => card.weight === "must").map((card) => card.id);
    return fc.tuple(
      fc.constant(input),
      fc.nat(input.file.takes.length - 1),
      fc.tuple(slip, fc.constantFrom(...musts)).map(([one, card]) => ({ ...one, card })),
    );
  });
  let yes = 0;
  fc.assert(
    fc.property(flagged, ([input, at, one]) => {
      const takes = input.file.takes.map((take, i) =>
        i === at ? { ...take, slips: [...take.slips, one] } : take,
      );
      const before = gigReady(input, { gig: null, names });
      const after = gigReady(withFile(input, { takes }), { gig: null, names });
      if (before.ready) yes++;
      before.gates.forEach((gate, i) => {
        if (!gate.ok) expect(after.gates[i]?.ok, gate.gate).toBe(false);
      });
    }),
    laws(),
  );
  expect(yes).toBeGreaterThan(0);
});

test("every gate is asked in order, and every no is one sentence that names something on the board", () => {
  fc.assert(
    fc.property(nearlyReady, (input) => {
      const { gates, ready, first } = gigReady(input, { gig: null, names });
      expect(gates.map(({ gate }) => gate)).toEqual([...GATES]);
      expect(ready).toBe(gates.every((gate) => gate.ok));
      expect(first).toBe(gates.find((gate) => !gate.ok) ?? null);
      for (const gate of gates) {
        if (gate.ok) continue;
        expect(gate.obstacles[0]?.sentence).toBe(gate.sentence);
        for (const { sentence, names: named } of gate.obstacles) {
          expect(sentence).toMatch(/^\S.*[^.]\.$/);
          expect(sentence).not.toMatch(/undefined|null|\$\{/);
          expect(named.song).toBe(SONG);
          if (named.chair !== undefined) expect(CHAIRS).toContain(named.chair);
          if (named.member !== undefined) expect(MEMBERS).toContain(named.member);
          if (named.card !== undefined) expect(input.file.cards.map(({ id }) => id)).toContain(named.card);
          if (named.take !== undefined) expect(input.file.takes.map(({ id }) => id)).toContain(named.take);
        }
      }
    }),
    laws(),
  );
});

test("a waiver passes its gate and stays visible", () => {
  fc.assert(
    fc.property(nearlyReady, fc.subarray([...GATES]), (input, waived) => {
      const waivers = waived.map((gate) => ({ song: SONG, gate, by: "tomasz", at: input.asOf, note: "" }));
      const gig: Pick<Gig, "songs" | "waivers"> = { songs: [], waivers };
      const plain = gigReady(input, { gig: null, names });
      const after = gigReady(input, { gig, names });
      expect(after.ready).toBe(plain.gates.every((gate) => gate.ok || waived.includes(gate.gate)));
      for (const gate of after.gates) {
        if (!gate.ok) expect(gate.waived).toBe(waivers.find((waiver) => waiver.gate === gate.gate) ?? null);
      }
    }),
    laws(),
  );
});
