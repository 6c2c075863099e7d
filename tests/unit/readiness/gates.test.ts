import { expect, test } from "vitest";
import type { Gig } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { GateName } from "#shared/board/gate.ts";
import { type GigReady, gigReady } from "#shared/readiness/gates.ts";
import type { Names } from "#shared/readiness/names.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { DAY_MS, SONG, START } from "#tests/support/histories.ts";
import { aCard, aMark, aRun, asked, holderOf, readyFile } from "#tests/support/ready-song.ts";

const PEOPLE: Record<string, string> = { tomasz: "Tomasz Wrzosnowicz", ifeoma: "Ifeoma Adisalu" };
const CHAIR_NAMES: Record<string, string> = { gt: "Guitar", bs: "Bass", dr: "Drums", vx: "Voice" };
const names: Names = { member: (id) => PEOPLE[id] ?? id, chair: (id) => CHAIR_NAMES[id] ?? id };

type Question = Pick<Gig, "songs" | "waivers">;

const ask = (change: Partial<SongFile>, gig: Question | null = null, night = 30): GigReady =>
  gigReady(asked({ ...readyFile(), ...change }, 26, night), { gig, names });

const no = ({ gates }: GigReady, gate: GateName) => {
  const found = gates.find((one) => one.gate === gate);
  return found?.ok ? null : (found ?? null);
};

const withSong = (change: Partial<SongFile["song"]>): Partial<SongFile> => ({
  song: { ...readyFile().song, ...change },
});

const night = (change: { key?: string; tempo?: number }): Question => ({
  songs: [
    {
      song: SONG,
      order: "a",
      key: change.key ?? null,
      tempo: change.tempo ?? null,
      tuning: null,
      block: 0,
      pin: "" as const,
    },
  ],
  waivers: [],
});

test("a song with everything in place is ready", () => {
  const answer = ask({});
  expect(answer.gates.filter((gate) => !gate.ok)).toEqual([]);
  expect(answer).toMatchObject({ ready: true, first: null });
});

test("settled: what is missing is listed in one sentence; the night's own key and tempo will do", () => {
  const open = withSong({ key: "", tempo: null, countIn: " " });
  expect(no(ask(open), "settled")?.sentence).toBe("Key, tempo and count-in are not settled.");
  expect(no(ask(open, night({ key: "D", tempo: 112 })), "settled")?.sentence).toBe(
    "Count-in is not settled.",
  );
  expect(no(ask({ sections: [] }), "settled")?.sentence).toBe("Form is not settled.");
});

test("covered: an empty needed chair is named; a chair that is not needed may stay empty", () => {
  const input = asked(readyFile(), 26, 30);
  const lineUp = new Map(input.lineUp).set("bs", null);
  const answer = gigReady({ ...input, lineUp }, { gig: null, names });
  expect(no(answer, "covered")).toMatchObject({
    sentence: "Nobody is on Bass.",
    names: { song: SONG, chair: "bs" },
  });
  const optional = {
    song: SONG,
    chair: "bs",
    plays: true,
    needed: false,
    holder: null,
    share: 1,
    nothingSpecial: null,
  };
  const file = { ...input.file, castings: new Map([["bs", optional]]) };
  expect(no(gigReady({ ...input, file, lineUp }, { gig: null, names }), "covered")).toBeNull();
});

const marked = (card: string, member: string, level: 0 | 1 | 2 | 3, day = 25): Partial<SongFile> => {
  const { statuses } = readyFile();
  return {
    statuses: new Map(statuses).set(card, new Map(statuses.get(card)).set(member, aMark(level, day))),
  };
};

test.each([
  [0, "'Detail of bs' has not been started by Ifeoma Adisalu."],
  [1, "'Detail of bs' is only noticed by Ifeoma Adisalu."],
  [2, "'Detail of bs' is only practised by Ifeoma Adisalu."],
] as const)("details: a must at level %d says whose it is", (level, sentence) => {
  expect(no(ask(marked("must-bs", "ifeoma", level)), "details")).toMatchObject({
    sentence,
    names: { song: SONG, card: "must-bs", member: "ifeoma", chair: "bs" },
  });
});

test("details: the sentence opens with what the detail is about", () => {
  expect(no(ask(marked("must-all", "ifeoma", 2)), "details")?.sentence).toBe(
    "Ending: 'Hit on 4-and' is only practised by Ifeoma Adisalu.",
  );
});

test("details: a shared must without a run together names the partners, once for the card", () => {
  const late = readyFile().cards.map((card) =>
    card.id === "must-all" ? { ...card, since: START + 20 * DAY_MS } : card,
  );
  const answer = no(ask({ cards: late }), "details");
  expect(answer?.obstacles).toHaveLength(1);
  expect(answer?.sentence).toBe(
    "Ending: 'Hit on 4-and' needs a run by Tomasz Wrzosnowicz together with Ifeoma Adisalu, minjae and lucia.",
  );
});

test("details and slips: a must that slipped after it was locked in names the run", () => {
  const slips = [{ chair: "bs", card: "must-bs", severity: 1, at: 0, writer: "phone" }] as const;
  const answer = ask({ takes: [aRun(10), aRun(17), aRun(26, { slips })] });
  expect(no(answer, "details")?.sentence).toBe(
    "'Detail of bs' is back to practised: Ifeoma Adisalu slipped on it in the run of 27 January.",
  );
  expect(no(answer, "slips")).toMatchObject({
    sentence: "'Detail of bs' slipped last time: Ifeoma Adisalu, in the run of 27 January.",
    names: { card: "must-bs", member: "ifeoma", take: aRun(26).id },
  });
});

test("details: a part without a must asks its own player, not somebody else", () => {
  const cards = readyFile().cards.filter(({ id }) => id === "must-gt");
  const sentence = "Bass has no must yet, and Ifeoma Adisalu has not said there is nothing special.";
  expect(no(ask({ cards }), "details")?.sentence).toBe(sentence);
  const said = (nothingSpecial: string): Partial<SongFile> => ({
    cards,
    castings: new Map(
      ["bs", "dr", "vx"].map((chair) => [
        chair,
        {
          song: SONG,
          chair,
          plays: true,
          needed: true,
          holder: null,
          share: 1,
          nothingSpecial: chair === "bs" ? nothingSpecial : holderOf(chair),
        },
      ]),
    ),
  });
  expect(no(ask(said("ifeoma")), "details")).toBeNull();
  expect(no(ask(said("tomasz")), "details")?.sentence).toBe(sentence);
});

test("details: a cover must counts while its chair is empty, and only then", () => {
  const cover = aCard("cover", { chairs: ["gt"], without: "bs", text: "Play the bass line low" });
  const input = asked({ ...readyFile(), cards: [...readyFile().cards, cover] }, 26, 30);
  expect(no(gigReady(input, { gig: null, names }), "details")).toBeNull();
  const answer = gigReady({ ...input, lineUp: new Map(input.lineUp).set("bs", null) }, { gig: null, names });
  expect(no(answer, "details")?.obstacles.map(({ sentence }) => sentence)).toContain(
    "'Play the bass line low' has not been started by Tomasz Wrzosnowicz.",
  );
});

test("together: no whole run at all is said plainly", () => {
  expect(no(ask({ takes: [] }), "together")?.sentence).toBe("No whole run by this line-up is in the log.");
});

const only = (change: Parameters<typeof aRun>[1], gig: Question | null = null): string | null =>
  no(ask({ takes: [aRun(17, change)] }, gig), "together")?.sentence ?? null;

const NOT_YET = "No run together yet that counts. The run of 18 January";

test("together: the nearest run says why it does not count", () => {
  expect(only({})).toBeNull();
  expect(only({ feel: "wobble" })).toBeNull();
  expect(only({ feel: "stopped" })).toBe(`${NOT_YET} stopped on the way.`);
  expect(only({ seats: aRun(17).seats.slice(1) })).toBe(`${NOT_YET} was without Tomasz Wrzosnowicz.`);
  const slip = { chair: null, severity: 1, at: 0, writer: "phone" } as const;
  expect(only({ slips: [{ ...slip, card: null }] })).toBe(`${NOT_YET} had a slip that nobody could place.`);
  expect(only({ slips: [{ ...slip, card: "must-gt" }] })).toBe(`${NOT_YET} had a slip on 'Detail of gt'.`);
  expect(only({ kind: "drill" })).toBe("No whole run by this line-up is in the log.");
});

test("together: in the key of the night, and ending near its tempo where that was measured", () => {
  expect(only({ key: "E" })).toBe(`${NOT_YET} was in E; the gig is in D.`);
  expect(only({}, night({ key: "C" }))).toBe(`${NOT_YET} was in D; the gig is in C.`);
  expect(only({ key: "C" }, night({ key: "C" }))).toBeNull();
  expect(only({ tempoEnd: 116 })).toBeNull();
  expect(only({ tempoEnd: 117 })).toBe(`${NOT_YET} ended at 117; the target is 112.`);
  // Exactly 4 % is allowed: 100 against 104.
  expect(only({ tempoEnd: 104 }, night({ tempo: 100 }))).toBeNull();
});

test("together: a run from before the key changed is in the key of its time", () => {
  const since = { key: START + 20 * DAY_MS, tempo: 0, form: 0, ending: 0 };
  const answer = no(ask({ ...withSong({ since }), takes: [aRun(17)] }), "together");
  expect(answer?.sentence).toBe(`${NOT_YET} was in another key; the gig is in D.`);
  expect(no(ask({ ...withSong({ since }), takes: [aRun(21)] }), "together")).toBeNull();
});

test("together: 45 days before the gig still count, 46 do not", () => {
  expect(no(ask({}, null, 17 + 45), "together")).toBeNull();
  expect(no(ask({}, null, 17 + 46), "together")?.sentence).toBe(
    `${NOT_YET} is more than 45 days before the gig.`,
  );
});

test("debut: two runs that count on different days, unless the song has been on a stage before", () => {
  const again = aRun(17, { id: "second take", no: 2 });
  expect(no(ask({ takes: [aRun(17), again] }), "debut")?.sentence).toBe(
    "Never played at a gig: after the run of 18 January, one more run that counts is needed, on another day.",
  );
  expect(no(ask({ ...withSong({ playedBefore: true }), takes: [aRun(17)] }), "debut")).toBeNull();
  const gig = aRun(3, { kind: "gig", occasion: "g:first", feel: "stopped" });
  expect(no(ask({ takes: [gig, aRun(17)] }), "debut")).toBeNull();
});

test("a waived gate is still a no with its sentence, but no longer in the way", () => {
  const waiver = { song: SONG, gate: "debut", by: "tomasz", at: 0, note: "one run will do" } as const;
  const gig = { songs: [], waivers: [waiver, { ...waiver, song: "another", gate: "covered" as const }] };
  const answer = ask({ takes: [aRun(17)] }, gig);
  expect(no(answer, "debut")).toMatchObject({ ok: false, waived: waiver });
  expect(answer).toMatchObject({ ready: true, first: null });
});

test("a take logged with a date still to come opens no gate", () => {
  const input: ScoreInput = asked({ ...readyFile(), takes: [aRun(28), aRun(29)] }, 26, 30);
  expect(no(gigReady(input, { gig: null, names }), "together")).not.toBeNull();
});
