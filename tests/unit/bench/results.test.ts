import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { gigPart } from "#tests/bench/gig-part.ts";
import { serverPart } from "#tests/bench/server-part.ts";
import { soakPart } from "#tests/bench/soak-part.ts";

const joinOf = (peer: string, complete: number) => ({ workload: "C", peer, complete, synced: complete });
const rowOf = (markdown: string, what: string): readonly string[] =>
  markdown
    .split("\n")
    .find((line) => line.startsWith(`| ${what} `))
    ?.split("|")
    .slice(1, -1)
    .map((cell) => cell.trim()) ?? [];

describe("the server's figures", () => {
  test("stand beside each peer's, with the ratio of ours to theirs and the budget", () => {
    const { figures, markdown } = serverPart.show([
      joinOf("stock", 2000),
      joinOf("hocuspocus", 4000),
      joinOf("tightrow", 1000),
    ]);
    expect(rowOf(markdown, "until the document is complete")).toEqual([
      "until the document is complete",
      "2,000 ms",
      "4,000 ms",
      "1,000 ms",
      "0.5",
      "0.25",
      "≤ 1,200 ms",
      "yes",
    ]);
    expect(figures.map(({ reached }) => reached)).toEqual([true]);
  });

  test("a peer that is not installed has no figure and no ratio", () => {
    const { markdown } = serverPart.show([
      { peer: "stock", missing: true },
      joinOf("hocuspocus", 4000),
      joinOf("tightrow", 1300),
    ]);
    expect(rowOf(markdown, "until the document is complete")).toEqual([
      "until the document is complete",
      "not installed",
      "4,000 ms",
      "1,300 ms",
      "",
      "0.33",
      "≤ 1,200 ms",
      "**no**",
    ]);
  });

  test("our own failure is never within the budget", () => {
    const { figures } = serverPart.show([joinOf("stock", 2000)]);
    expect(figures).toEqual([
      { what: "C: until the document is complete", now: "failed", budget: "≤ 1,200 ms", reached: false },
    ]);
  });
});

test("a soak without a verdict is not shown as one", () => {
  expect(() => soakPart.show([{ phase: "soaking", seconds: 10 }])).toThrow("no verdict");
});

test("the peers' lock files name no place to fetch from", () => {
  const peers = new URL("../../bench/peers/", import.meta.url);
  const locks = readdirSync(peers).map((peer) =>
    readFileSync(new URL(`${peer}/package-lock.json`, peers), "utf8"),
  );
  expect(locks).toHaveLength(2);
  for (const lock of locks) {
    expect(lock).toContain('"integrity"');
    expect(lock).not.toContain('"resolved"');
  }
});

describe("a gig's figures", () => {
  const lines = [
    { figure: "what-if: without somebody, 4x", p50: 150, p95: 240 },
    { figure: "what-if: without somebody, 1x", p50: 40, p95: 60 },
    { figure: "formula of what-if: without somebody, 4x", p50: 70, p95: 90 },
    { figure: "formula of what-if: without somebody, 1x", p50: 18, p95: 30 },
  ];

  test("stand at both speeds beside what the formula alone takes", () => {
    expect(rowOf(gigPart.show(lines).markdown, "what-if: without somebody")).toEqual([
      "what-if: without somebody",
      "150 ms / 240 ms",
      "70 ms / 90 ms",
      "40 ms / 60 ms",
      "18 ms / 30 ms",
    ]);
  });

  test("one above its budget, and one that was not measured, are not reached", () => {
    const reached = new Map(gigPart.show(lines).figures.map(({ what, reached }) => [what, reached]));
    expect(reached.get("what-if, without somebody, p50, 4x slower")).toBe(true);
    expect(reached.get("what-if, without somebody, p95, 4x slower")).toBe(false);
    expect(reached.get("what-if, another key, p50, 4x slower")).toBe(false);
  });
});
