import { describe, expect, test } from "vitest";
import type { Level } from "#shared/board/status.ts";
import type { Names } from "#shared/readiness/names.ts";
import { markRefusal, nextStep, reasonSentence } from "#shared/selectors/marking.ts";
import type { Standing } from "#shared/selectors/part-view.ts";
import { aRun } from "#tests/support/ready-song.ts";

const NAMES: Names = {
  member: (id) => ({ anneli: "Anneli Kuusvirre", minjae: "Min-jae Pardal" })[id] ?? "Tomasz Wrzosnowicz",
  chair: (id) => ({ ky: "Keys", bs: "Bass" })[id] ?? "Guitar 1",
};
const ZONE = "Europe/Lisbon";

const standing = (change: Partial<Standing> = {}): Standing => ({
  chair: "gt",
  member: "tomasz",
  statusId: "card",
  level: 3,
  marked: 3,
  effective: { level: 3, marked: 3, reason: { is: "as marked" } },
  mark: null,
  slipped: false,
  waiting: false,
  ...change,
});

const held = (reason: NonNullable<Standing["effective"]>["reason"], level: Level = 2): Standing =>
  standing({ level, effective: { level, marked: 3, reason } });

describe("one tap on a status", () => {
  test.each([
    [0, 1],
    [1, 2],
    [2, 3],
  ] as const)("goes from level %i to %i", (from, level) => {
    expect(nextStep({ marked: from, level: from })).toEqual({ is: "raise", level });
  });

  test("on locked in asks, and steps back to practised", () => {
    expect(nextStep({ marked: 3, level: 3 })).toEqual({ is: "ask", back: 2 });
  });

  test("on what slipped or waits asks too; stepping back goes to what counts", () => {
    expect(nextStep({ marked: 3, level: 2 })).toEqual({ is: "ask", back: 2 });
    expect(nextStep({ marked: 3, level: 1 })).toEqual({ is: "ask", back: 1 });
  });

  test("on a practised detail that was changed since says practised again", () => {
    expect(nextStep({ marked: 2, level: 1 })).toEqual({ is: "raise", level: 2 });
  });
});

describe("why a status counts for less", () => {
  test("is not said when it counts as marked", () => {
    expect(reasonSentence(standing(), NAMES, ZONE)).toBeNull();
  });

  test("names the run it slipped in", () => {
    const take = aRun(62);
    expect(reasonSentence(held({ is: "slipped since", take }), NAMES, ZONE)).toBe(
      "Slipped in the run of 4 March.",
    );
  });

  test("names the day of the gig it slipped at", () => {
    const take = aRun(62, { kind: "gig", occasion: "g:spring" });
    expect(reasonSentence(held({ is: "slipped since", take }), NAMES, ZONE)).toBe(
      "Slipped in the gig of 4 March.",
    );
  });

  test("names who a run together is missing", () => {
    const reason = { is: "needs a run together", missing: ["anneli", "minjae"], vacant: [] } as const;
    expect(reasonSentence(held(reason), NAMES, ZONE)).toBe(
      "Waits for a run together with Anneli Kuusvirre and Min-jae Pardal.",
    );
  });

  test("names the empty chair before anybody who is there", () => {
    const reason = { is: "needs a run together", missing: ["anneli"], vacant: ["bs"] } as const;
    expect(reasonSentence(held(reason), NAMES, ZONE)).toBe("Waits: nobody is on Bass.");
  });

  test("says on which day of the band's it was changed", () => {
    const since = Date.UTC(2026, 2, 3, 23, 30);
    const reason = { is: "changed since", since } as const;
    expect(reasonSentence(held(reason, 1), NAMES, ZONE)).toBe("Changed on 3 March: learn it again.");
    expect(reasonSentence(held(reason, 1), NAMES, "Europe/Berlin")).toBe(
      "Changed on 4 March: learn it again.",
    );
  });

  test("says that a detail below locked in slipped", () => {
    const low = standing({ level: 1, marked: 1, slipped: true });
    expect(reasonSentence(low, NAMES, ZONE)).toBe("Slipped the last time it was played.");
  });
});

describe("who may mark", () => {
  const at = standing({ member: "anneli", chair: "ky" });

  test.each([
    ["the leader anybody's", { member: "tomasz", role: "leader" }, null],
    ["a leader's device without a name too", { member: null, role: "leader" }, null],
    ["a member their own", { member: "anneli", role: "member" }, null],
    [
      "a member nobody else's",
      { member: "minjae", role: "member" },
      "Only Anneli Kuusvirre or the leader marks this.",
    ],
    ["somebody nameless nothing", { member: null, role: "member" }, "Say who you are before you mark."],
    [
      "a guest nothing",
      { member: "anneli", role: "guest" },
      "You are looking on; a joining link lets you mark.",
    ],
  ] as const)("%s", (_, author, refusal) => {
    expect(markRefusal(author, at, NAMES)).toBe(refusal);
  });

  test("nobody marks for an empty chair", () => {
    const empty = standing({ member: null, chair: "bs" });
    expect(markRefusal({ member: "tomasz", role: "leader" }, empty, NAMES)).toBe("Nobody is on Bass yet.");
  });
});
