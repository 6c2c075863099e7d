/**
 * Random songs with a random past, for laws of the computation. They hold what real boards hold: takes logged
 * twice, ties in time, dates in the future, details that were deleted, absent members, substitutes, shared
 * details, empty chairs, cover cards, chairs that are gone, slips nobody could place.
 */
import fc from "fast-check";
import type { SongFile } from "#shared/board/board.ts";
import { CARD_KINDS, type Card, WEIGHTS, type Where } from "#shared/board/card.ts";
import { type Id, partCardId } from "#shared/board/ids.ts";
import type { LineUp } from "#shared/board/line-up.ts";
import { DEFAULT_SETTINGS, type Settings } from "#shared/board/settings.ts";
import type { Casting, Section, Song } from "#shared/board/song.ts";
import type { Level, Status } from "#shared/board/status.ts";
import {
  FEELS,
  type Scope,
  SEVERITIES,
  type Seat,
  type Slip,
  TAKE_KINDS,
  type Take,
} from "#shared/board/take.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { plainSong } from "./plain-song.ts";

export const DAY_MS = 86_400_000;
/** Day 0 of every history. */
export const START = Date.UTC(2026, 0, 1);
/** Days on which a history may have events; asOf lies inside, so some are in the future. */
const DAYS = 140;

export const SONG: Id = "song";
export const CHAIRS: readonly Id[] = ["gt", "bs", "dr", "vx"];
/** Once a column, now gone from the board. */
export const GONE_CHAIR: Id = "ky";
/** Once a detail, now deleted. */
export const GONE_CARD: Id = "gone";
export const MEMBERS: readonly Id[] = ["tomasz", "ifeoma", "minjae", "lucia", "dep-karim"];
const SECTIONS: readonly Id[] = ["v1", "ch1", "v2"];

/** Coarse steps, so that ties are common. */
export const moment = (from = 0, to = DAYS): fc.Arbitrary<number> =>
  fc.integer({ min: from * 2, max: to * 2 }).map((half) => START + half * (DAY_MS / 2));

const mostly = <T>(usual: T, other: fc.Arbitrary<T>, weight = 4): fc.Arbitrary<T> =>
  fc.oneof({ weight, arbitrary: fc.constant(usual) }, { weight: 1, arbitrary: other });

const settings: fc.Arbitrary<Settings> = mostly(
  DEFAULT_SETTINGS,
  fc
    .record({
      g: fc.constantFrom(1, 7, 10),
      soloCap: fc.constantFrom(0, 0.5, 2),
      kappa: fc.constantFrom(0, 0.35, 2),
      wBand: fc.constantFrom(0, 0.25, 1),
      vNoticed: fc.constantFrom(0, 0.5, 1),
      b: fc.constantFrom(0, 0.5, 3),
    })
    .map((some) => ({ ...DEFAULT_SETTINGS, ...some })),
);

const since = mostly(0, moment(0, 60));

export const song: fc.Arbitrary<Song> = fc
  .record({
    key: fc.constantFrom("Em", "D", ""),
    tempo: fc.constantFrom(null, 112),
    countIn: mostly("four on the hats", fc.constant("")),
    ending: mostly("all choke on 4-and", fc.constant("")),
    playedBefore: fc.boolean(),
    since: fc.record({ key: since, tempo: since, form: since, ending: since }),
  })
  .map((some) => ({
    ...plainSong(SONG, "Marzipan Diesel"),
    stage: "in the book" as const,
    length: 240,
    order: "a",
    addedAt: START,
    ...some,
  }));

export const sections: fc.Arbitrary<readonly Section[]> = fc.subarray([...SECTIONS]).chain((ids) =>
  fc.tuple(...ids.map(() => since)).map((times) =>
    ids.map((id, i) => ({
      id,
      song: SONG,
      name: id,
      bars: 8,
      ...PLAIN_SECTION,
      order: id,
      since: times[i] ?? 0,
    })),
  ),
);

const casting = (chair: Id): fc.Arbitrary<Casting> =>
  fc
    .record({
      plays: mostly(true, fc.constant(false), 9),
      needed: mostly(true, fc.constant(false)),
      share: mostly(1, fc.constantFrom(0, 0.5, 2)),
      nothingSpecial: mostly<Id | null>(null, fc.constantFrom(...MEMBERS)),
    })
    .map((some) => ({ song: SONG, chair, holder: null, ...some }));

const where: fc.Arbitrary<Where> = fc.oneof(
  fc.constant<Where>({}),
  fc
    .tuple(fc.constantFrom(...SECTIONS), fc.option(fc.constantFrom(...SECTIONS), { nil: undefined }))
    .map(([from, to]) => ({ from: { section: from }, ...(to ? { to: { section: to } } : {}) })),
);

export const card = (id: Id): fc.Arbitrary<Card> =>
  fc
    .record({
      chairs: fc.oneof(
        { weight: 3, arbitrary: fc.constantFrom(...CHAIRS).map((chair) => [chair]) },
        { weight: 3, arbitrary: fc.subarray([...CHAIRS, GONE_CHAIR], { minLength: 2 }) },
        { weight: 1, arbitrary: fc.constant<Id[]>([]) },
      ),
      weight: fc.constantFrom(...WEIGHTS),
      kind: fc.constantFrom(...CARD_KINDS),
      where,
      without: mostly<Id | undefined>(undefined, fc.constantFrom(...CHAIRS)),
      since,
    })
    .map(({ without, ...some }) => ({
      id,
      song: SONG,
      order: id,
      source: "ours" as const,
      text: `Detail ${id}`,
      right: "",
      versions: { text: [], right: [] },
      createdBy: "tomasz",
      createdAt: 0,
      ...some,
      ...(without === undefined ? {} : { without }),
    }));

export const CARD_IDS: readonly Id[] = ["c1", "c2", "c3", "c4", "c5"];
export const STATUS_IDS: readonly Id[] = [
  ...CARD_IDS,
  GONE_CARD,
  ...CHAIRS.map((chair) => partCardId(SONG, chair)),
];

export const mark: fc.Arbitrary<Status> = fc
  .tuple(fc.constantFrom<Level>(0, 1, 2, 3), moment(), fc.nat(3))
  .map(([level, anchor, later]) => ({
    writer: "phone",
    level,
    from: 0,
    anchor,
    fromAnchor: 0,
    at: anchor + later,
  }));

const statuses: fc.Arbitrary<SongFile["statuses"]> = fc
  .uniqueArray(fc.tuple(fc.constantFrom(...STATUS_IDS), fc.constantFrom(...MEMBERS), mark), {
    maxLength: 24,
    selector: ([id, member]) => `${id}/${member}`,
  })
  .map((marks) => {
    const byCard = new Map<Id, Map<Id, Status>>();
    for (const [id, member, status] of marks) {
      byCard.set(id, (byCard.get(id) ?? new Map<Id, Status>()).set(member, status));
    }
    return byCard;
  });

const scope: fc.Arbitrary<Scope> = fc.oneof(
  { weight: 5, arbitrary: fc.constant<Scope>({ of: "whole" }) },
  {
    weight: 1,
    arbitrary: fc
      .subarray([...SECTIONS], { minLength: 1 })
      .map((of): Scope => ({ of: "sections", sections: of })),
  },
  {
    weight: 2,
    arbitrary: fc
      .subarray([...STATUS_IDS], { minLength: 1, maxLength: 4 })
      .map((cards): Scope => ({ of: "cards", cards })),
  },
);

/** Everybody on their usual chair, with absences, stand-ins, and now and then two names for one chair. */
const seats: fc.Arbitrary<readonly Seat[]> = fc
  .tuple(
    ...[...CHAIRS, GONE_CHAIR].map((chair, i) =>
      fc.oneof(
        { weight: 6, arbitrary: fc.constant([{ chair, member: MEMBERS[i] ?? "dep-karim" }]) },
        { weight: 2, arbitrary: fc.constant<Seat[]>([]) },
        {
          weight: 1,
          arbitrary: fc
            .subarray([...MEMBERS], { maxLength: 2 })
            .map((of) => of.map((member) => ({ chair, member }))),
        },
      ),
    ),
  )
  .map((all) => all.flat());

export const slip: fc.Arbitrary<Slip> = fc.record({
  chair: fc.constantFrom(null, ...CHAIRS),
  card: fc.oneof(
    fc.constant(null),
    fc.constantFrom(...CARD_IDS),
    fc.constantFrom(GONE_CARD, partCardId(SONG, "gt")),
  ),
  severity: fc.constantFrom(...SEVERITIES),
  at: moment(),
  writer: fc.constant("phone"),
});

export const takeOf = (
  id: fc.Arbitrary<string>,
  slips: fc.Arbitrary<readonly Slip[]> = fc.array(slip, { maxLength: 2 }),
  at: fc.Arbitrary<number> = moment(),
): fc.Arbitrary<Take> =>
  fc
    .record({
      id,
      kind: fc.constantFrom(...TAKE_KINDS, "run" as const),
      at,
      seats,
      scope,
      feel: fc.constantFrom(...FEELS),
      tempoEnd: fc.constantFrom(null, 112, 115, 130),
      key: mostly<string | null>(null, fc.constantFrom("Em", "D")),
      slips,
    })
    .map((some) => ({
      song: SONG,
      occasion: `r:${new Date(some.at).toISOString().slice(0, 10)}`,
      no: 1,
      tempoStart: null,
      writers: ["phone"],
      ...some,
    }));

const takes: fc.Arbitrary<readonly Take[]> = fc
  .uniqueArray(takeOf(fc.integer({ min: 10, max: 99 }).map((n) => `take-${n}`)), {
    maxLength: 14,
    selector: (take) => take.id,
  })
  .map((all) => [...all].sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1)));

export const lineUp: fc.Arbitrary<LineUp> = fc
  .tuple(
    ...CHAIRS.map((_, i) =>
      fc.oneof(
        { weight: 5, arbitrary: fc.constant<Id | null>(MEMBERS[i] ?? null) },
        { weight: 1, arbitrary: fc.constant<Id | null>(null) },
        { weight: 1, arbitrary: fc.constantFrom<Id | null>(...MEMBERS) },
      ),
    ),
  )
  .map((holders) => new Map(CHAIRS.map((chair, i) => [chair, holders[i] ?? null])));

const cards: fc.Arbitrary<readonly Card[]> = fc
  .subarray([...CARD_IDS])
  .chain((ids) => fc.tuple(...ids.map(card)).map((all) => [...all]));

export const castings: fc.Arbitrary<ReadonlyMap<Id, Casting>> = fc
  .subarray([...CHAIRS])
  .chain((chairs) => fc.tuple(...chairs.map(casting)))
  .map((all) => new Map(all.map((one) => [one.chair, one])));

export const file: fc.Arbitrary<SongFile> = fc.record({
  song,
  sections,
  castings,
  textures: fc.constant(new Map()),
  dismissed: fc.constant(new Set<string>()),
  cards,
  statuses,
  takes,
  rulings: fc.constant([]),
  questions: fc.constant([]),
});

/** A song, who plays it, and when it is asked about: `t` from the present up to some months on. */
export const history: fc.Arbitrary<ScoreInput> = fc
  .record({ file, lineUp, settings, asOf: moment(60, 120), ahead: fc.integer({ min: 0, max: 240 }) })
  .map(({ ahead, asOf, ...some }) => ({
    ...some,
    chairs: CHAIRS.map((id) => ({ id })),
    asOf,
    t: asOf + ahead * (DAY_MS / 2),
  }));

/** The input with another log, other marks, and so on. */
export const withFile = (input: ScoreInput, change: Partial<SongFile>): ScoreInput => ({
  ...input,
  file: { ...input.file, ...change },
});

/** The input with one mark set. */
export const withMark = (input: ScoreInput, id: Id, member: Id, status: Status): ScoreInput => {
  const marks = new Map(input.file.statuses.get(id)).set(member, status);
  return withFile(input, { statuses: new Map(input.file.statuses).set(id, marks) });
};
