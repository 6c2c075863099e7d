import fc from "fast-check";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { type Id, partCardId } from "#shared/board/ids.ts";
import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import type { Status } from "#shared/board/status.ts";
import type { Take } from "#shared/board/take.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { CHAIRS, DAY_MS, MEMBERS, SONG, START } from "#tests/support/histories.ts";
import { plainSong } from "#tests/support/plain-song.ts";

/** Who usually sits on a chair. */
export const holderOf = (chair: Id): Id => MEMBERS[CHAIRS.indexOf(chair)] ?? "dep-karim";

export const aCard = (id: Id, change: Partial<Card> = {}): Card => ({
  id,
  song: SONG,
  chairs: ["gt"],
  weight: "must",
  kind: "general",
  where: {},
  order: id,
  source: "ours",
  text: "Hit on 4-and",
  right: "",
  versions: { text: [], right: [] },
  since: 0,
  createdBy: "tomasz",
  createdAt: 0,
  ...change,
});

export const aMark = (level: Status["level"], day: number): Status => ({
  writer: "phone",
  level,
  from: 0,
  anchor: START + day * DAY_MS,
  fromAnchor: 0,
  at: START + day * DAY_MS,
});

/** A clean whole run by everybody at 20:00 on a day. */
export const aRun = (day: number, change: Partial<Take> = {}): Take => {
  const date = new Date(START + day * DAY_MS).toISOString().slice(0, 10);
  return {
    id: `r:${date}/${SONG}/1`,
    song: SONG,
    occasion: `r:${date}`,
    no: 1,
    kind: "run",
    at: START + day * DAY_MS + (20 / 24) * DAY_MS,
    seats: CHAIRS.map((chair) => ({ chair, member: holderOf(chair) })),
    scope: { of: "whole" },
    feel: "clean",
    tempoStart: null,
    tempoEnd: null,
    key: null,
    slips: [],
    writers: ["phone"],
    ...change,
  };
};

export const aSong = (change: Partial<SongFile> = {}): SongFile => ({
  song: {
    ...plainSong(SONG, "Marzipan Diesel"),
    stage: "in the book",
    key: "D",
    tempo: 112,
    length: 240,
    countIn: "drums, one bar of sticks",
    ending: "riff three times, all choke on 4-and",
    order: "a",
    addedAt: START,
  },
  sections: [
    {
      id: "v1",
      song: SONG,
      name: "V1",
      bars: 16,
      repeats: 1,
      metre: "",
      tempo: null,
      key: "",
      order: "a",
      since: 0,
    },
  ],
  castings: new Map(),
  textures: new Map(),
  dismissed: new Set(),
  cards: [],
  statuses: new Map(),
  takes: [],
  rulings: [],
  questions: [],
  ...change,
});

/** A song asked about at the end of day `night`, now being the end of day `today`. */
export const asked = (file: SongFile, today: number, night = today): ScoreInput => ({
  file,
  chairs: CHAIRS.map((id) => ({ id })),
  lineUp: new Map(CHAIRS.map((chair) => [chair, holderOf(chair)])),
  settings: DEFAULT_SETTINGS,
  t: START + (night + 1) * DAY_MS - 1,
  asOf: START + (today + 1) * DAY_MS - 1,
});

/** One must per chair and one that everybody shares, all locked in, two clean runs: ready in every way. */
export const readyFile = (): SongFile => {
  const cards = [
    ...CHAIRS.map((chair) => aCard(`must-${chair}`, { chairs: [chair], text: `Detail of ${chair}` })),
    aCard("must-all", { chairs: CHAIRS, kind: "ending" }),
  ];
  const statuses = new Map(
    [
      ...cards.map((card) => [card.id, card.chairs] as const),
      ...CHAIRS.map((c) => [partCardId(SONG, c), [c]] as const),
    ].map(([id, chairs]) => [id, new Map(chairs.map((chair) => [holderOf(chair), aMark(3, 25)]))] as const),
  );
  return aSong({ cards, statuses, takes: [aRun(10), aRun(17)] });
};

/** Ready songs with now and then something missing. */
export const readySong: fc.Arbitrary<ScoreInput> = fc
  .record({
    lessLocked: fc.option(fc.constantFrom(...CHAIRS), { freq: 4 }),
    vacant: fc.option(fc.constantFrom(...CHAIRS), { freq: 6, nil: undefined }),
    runs: fc.subarray([3, 10, 17, 24]),
    today: fc.integer({ min: 25, max: 40 }),
    ahead: fc.integer({ min: 0, max: 30 }),
  })
  .map(({ lessLocked, vacant, runs, today, ahead }) => {
    const file = readyFile();
    const statuses = new Map(file.statuses);
    if (lessLocked) statuses.set(`must-${lessLocked}`, new Map([[holderOf(lessLocked), aMark(2, 25)]]));
    const input = asked({ ...file, statuses, takes: runs.map((day) => aRun(day)) }, today, today + ahead);
    return vacant ? { ...input, lineUp: new Map(input.lineUp).set(vacant, null) } : input;
  });
