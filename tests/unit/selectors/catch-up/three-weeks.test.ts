/** Three weeks away from a busy band, read in under three minutes. */
import { describe, expect, test } from "vitest";
import { dayOf } from "#shared/lib/calendar.ts";
import { concerning, knownFrom } from "#shared/selectors/catch-up/concerns.ts";
import { type Digest, digestOf, MOST_MINUTES, WORDS_A_MINUTE } from "#shared/selectors/catch-up/digest.ts";
import { GROUPS, wordsIn } from "#shared/selectors/catch-up/item.ts";
import { threeWeeks } from "#tests/support/three-weeks.ts";

const away = threeWeeks();
const digestFor = (member: string): Digest => {
  const whose = { member, writer: "my phone" };
  const from = dayOf(away.left, away.before.band.timeZone);
  const known = knownFrom(concerning(away.before, { ...whose, from, since: away.left }));
  return digestOf({ board: away.after, known, whose, since: away.left, asOf: away.back });
};
const members = [...away.before.people.values()].filter(({ dep }) => !dep).map(({ id }) => id);
const digests = members.map(digestFor);

describe("three weeks of a busy band", () => {
  test("are as busy as they are meant to be", () => {
    expect(away.takes).toBe(40);
    expect(digests.map(({ items }) => items.length).filter((count) => count > 40).length).toBeGreaterThan(2);
  });

  test("take no member longer than three minutes to read, in at most seven groups", () => {
    for (const digest of digests) {
      expect(digest.minutes).toBeLessThanOrEqual(MOST_MINUTES);
      expect(digest.groups.length).toBeLessThanOrEqual(7);
      const shown = digest.groups.flatMap((group) => group.shown);
      const words = shown.reduce((sum, item) => sum + wordsIn(item), 0);
      expect(words / WORDS_A_MINUTE).toBeLessThan(digest.minutes);
      expect(shown.length).toBeGreaterThan(10);
    }
  });

  test("fold nothing weightier than what is in sight", () => {
    for (const { groups } of digests) {
      const shown = groups.flatMap((group) => group.shown).map(({ rank }) => rank);
      const folded = groups.flatMap((group) => group.folded).map(({ rank }) => rank);
      expect(Math.min(...shown)).toBeGreaterThanOrEqual(Math.max(0, ...folded));
    }
  });

  test("put every ruling in sight, the groups in the order in which they are read", () => {
    for (const { groups } of digests) {
      expect(groups.find(({ group }) => group === "rulings")?.folded ?? []).toEqual([]);
      const order = groups.map(({ group }) => GROUPS.indexOf(group));
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }
  });

  test("are no news to whoever did it", () => {
    const leader = digests[members.indexOf("demo-tomasz")];
    const singer = digests[members.indexOf("demo-priya")];
    expect(leader?.groups.some(({ group }) => group === "rulings")).toBe(false);
    expect(singer?.groups.some(({ group }) => group === "rulings")).toBe(true);
  });
});
