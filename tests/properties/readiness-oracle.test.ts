import fc from "fast-check";
import { expect, test } from "vitest";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { laws } from "#tests/support/fuzz.ts";
import { history } from "#tests/support/histories.ts";
import { slowScore } from "#tests/support/slow-score.ts";

test("[SCORE-8] the score agrees with a slow, literal second writing of its definition", () => {
  fc.assert(
    fc.property(history, (input) => {
      const fast = scoreSong(input);
      const slow = slowScore(input);
      expect(fast.score).toBeCloseTo(slow.score, 10);
      expect(fast.logShare).toBeCloseTo(slow.logShare, 10);
      expect(fast.trouble).toBeCloseTo(slow.trouble, 10);
      for (const [name, value] of Object.entries(fast.split))
        expect(value, name).toBeCloseTo(slow.split[name] ?? -1, 10);
      expect(fast.units.length).toBe(slow.r.size);
      for (const { unit, r } of fast.units) {
        const key = `${unit.chair ?? "band"}/${unit.card?.id ?? "-"}`;
        expect(r, key).toBeCloseTo(slow.r.get(key) ?? -1, 10);
      }
    }),
    laws(),
  );
});
