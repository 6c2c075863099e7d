import { expect, test } from "vitest";
import { drawHeads } from "#client/ui/heads-bar.tsx";
import { halfHeight, halfWidth, headDashes } from "#client/ui/note-head.ts";

const TURNED = (20 * Math.PI) / 180;
const FLATNESS = 0.74;

/** Points of a turned ellipse by its parametric form, as a second way to the same figures. */
const outline = (radius: number, steps = 20_000) =>
  Array.from({ length: steps }, (_, step) => {
    const t = (step / steps) * 2 * Math.PI;
    const [x, y] = [radius * Math.cos(t), radius * FLATNESS * Math.sin(t)];
    return [
      x * Math.cos(TURNED) - y * Math.sin(TURNED),
      x * Math.sin(TURNED) + y * Math.cos(TURNED),
    ] as const;
  });

test.each([3.9, 6.2, 7.2])("a head of radius %f reaches as far as its turned ellipse does", (radius) => {
  const points = outline(radius);
  expect(halfWidth(radius)).toBeCloseTo(Math.max(...points.map(([x]) => x)), 4);
  expect(halfHeight(radius)).toBeCloseTo(Math.max(...points.map(([, y]) => y)), 4);
});

test("six dashes and six gaps go once around a head", () => {
  const radius = 7.2;
  const points = outline(radius);
  const around = points.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length] ?? [x, y];
    return sum + Math.hypot(nextX - x, nextY - y);
  }, 0);
  const [dash = 0, gap = 0] = headDashes(radius, 0).split(" ").map(Number);
  expect(6 * (dash + gap)).toBeCloseTo(around, 0);
});

test("a bar holds at most one path for each kind of stroke, however many heads stand in it", () => {
  const heads = Array.from({ length: 7 }, () => ({ level: 3, large: true }) as const);
  const drawn = drawHeads(heads);
  expect(drawn.filled.match(/Z/g)).toHaveLength(7);
  expect(drawn.dashedLarge + drawn.dashedSmall + drawn.struck + drawn.linked).toBe("");
});

test("large heads stand before small ones, whatever order they come in", () => {
  const large = { level: 3, large: true } as const;
  const small = { level: 3, large: false } as const;
  expect(drawHeads([small, large])).toEqual(drawHeads([large, small]));
});

test("a slip strikes through its own head only", () => {
  const drawn = drawHeads([
    { level: 1, large: true },
    { level: 1, large: true, slipped: true },
  ]);
  expect(drawn.struck.match(/M/g)).toHaveLength(1);
  expect(drawn.openLarge.match(/Z/g)).toHaveLength(2);
});
