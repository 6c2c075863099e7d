/** A board of any size with a plausible season behind it, for benchmarks. The same numbers give the same board. */
import type { SongFile } from "#shared/board/board.ts";
import { CARD_KINDS, type Card, WEIGHTS } from "#shared/board/card.ts";
import { type Id, partCardId } from "#shared/board/ids.ts";
import type { LineUp } from "#shared/board/line-up.ts";
import type { Section } from "#shared/board/song.ts";
import type { Level, Status } from "#shared/board/status.ts";
import type { Scope, Slip, Take, TakeKind } from "#shared/board/take.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { plainSong } from "#tests/support/plain-song.ts";

export interface BoardSize {
  readonly songs: number;
  readonly chairs: number;
  /** Details per part; two of them are shared, one with each neighbour. */
  readonly cards: number;
  readonly takes: number;
}

export interface BigBoard {
  readonly files: readonly SongFile[];
  readonly chairs: readonly { readonly id: Id }[];
  readonly lineUp: LineUp;
  /** Moment (ms) the last take was before. */
  readonly now: number;
}

const DAY = 86_400_000;
const SEASON_DAYS = 720;
const START = Date.UTC(2026, 0, 1);

/** mulberry32, a published 32-bit generator by Tommy Ettinger (public domain; from memory). */
export const seeded = (seed: number): (() => number) => {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
};

export const bigBoard = (size: BoardSize, seed = 1): BigBoard => {
  const random = seeded(seed);
  const chairs = Array.from({ length: size.chairs }, (_, i) => ({ id: `chair-${i}` }));
  const takesPerSong = Math.round(size.takes / size.songs);
  return {
    files: Array.from({ length: size.songs }, (_, i) =>
      bigSong(`song-${i}`, chairs, size, takesPerSong, random),
    ),
    chairs,
    lineUp: new Map(chairs.map(({ id }) => [id, memberOn(id)])),
    now: START + SEASON_DAYS * DAY,
  };
};

const memberOn = (chair: Id): Id => chair.replace("chair", "member");

const pick = <T>(items: readonly T[], random: () => number): T => {
  const item = items[Math.floor(random() * items.length)];
  if (item === undefined) throw new Error("nothing to pick from");
  return item;
};

const bigSong = (
  id: Id,
  chairs: readonly { readonly id: Id }[],
  size: BoardSize,
  takes: number,
  random: () => number,
): SongFile => {
  const sections = Array.from(
    { length: 8 },
    (_, i): Section => ({
      id: `${id}-section-${i}`,
      song: id,
      name: `Part ${i}`,
      bars: 8,
      ...PLAIN_SECTION,
      order: String(i),
      since: 0,
    }),
  );
  const cards = chairs.flatMap((chair, c) =>
    Array.from({ length: size.cards - 1 }, (_, n) => bigCard(id, chair.id, c, n, chairs, sections, random)),
  );
  const statuses = new Map<Id, ReadonlyMap<Id, Status>>();
  for (const card of cards)
    statuses.set(card.id, new Map(card.chairs.map((chair) => [memberOn(chair), bigMark(random)])));
  for (const chair of chairs)
    statuses.set(partCardId(id, chair.id), new Map([[memberOn(chair.id), bigMark(random)]]));
  return {
    song: {
      ...plainSong(id),
      stage: "in the book",
      key: "D",
      tempo: 112,
      length: 240,
      countIn: "sticks",
      ending: "together",
      playedBefore: true,
      addedAt: START,
    },
    sections,
    castings: new Map(),
    textures: new Map(),
    dismissed: new Set(),
    cards,
    statuses,
    takes: Array.from({ length: takes }, (_, n) => bigTake(id, n, takes, chairs, cards, random)),
    rulings: [],
    questions: [],
  };
};

const bigCard = (
  song: Id,
  chair: Id,
  c: number,
  n: number,
  chairs: readonly { readonly id: Id }[],
  sections: readonly Section[],
  random: () => number,
): Card => ({
  id: `${song}-card-${c}-${n}`,
  song,
  chairs: n === 0 ? [chair, chairs[(c + 1) % chairs.length]?.id ?? chair] : [chair],
  weight: pick(WEIGHTS, random),
  kind: pick(CARD_KINDS, random),
  where: random() < 0.7 ? { from: { section: pick(sections, random).id } } : {},
  order: String(n),
  source: "ours",
  text: `Detail ${n}`,
  right: "",
  versions: { text: [], right: [] },
  since: START + Math.floor(random() * 100) * DAY,
  createdBy: "member-0",
  createdAt: START,
});

const bigMark = (random: () => number): Status => {
  const at = START + Math.floor((0.5 + random() / 2) * SEASON_DAYS) * DAY;
  return {
    writer: "phone",
    level: pick<Level>([0, 1, 2, 3, 3], random),
    from: 0,
    anchor: at,
    fromAnchor: 0,
    at,
  };
};

const KINDS: readonly TakeKind[] = ["solo", "solo", "drill", "run", "run", "run", "run", "gig"];

const bigTake = (
  song: Id,
  n: number,
  of: number,
  chairs: readonly { readonly id: Id }[],
  cards: readonly Card[],
  random: () => number,
): Take => {
  const kind = pick(KINDS, random);
  const day = Math.floor(((n + 0.5) / of) * SEASON_DAYS);
  const present = kind === "solo" ? [pick(chairs, random)] : chairs.filter(() => random() < 0.9);
  const at = START + day * DAY + (n % 20) * 60_000 + 20 * 3_600_000;
  const whole: Scope = { of: "whole" };
  const slip = (): Slip => {
    const card = pick(cards, random);
    return { chair: card.chairs[0] ?? null, card: card.id, severity: 1, at, writer: "phone" };
  };
  return {
    id: `r:${day}/${song}/${String(n).padStart(6, "0")}`,
    song,
    occasion: `r:${day}`,
    no: n,
    kind,
    at,
    seats: present.map(({ id }) => ({ chair: id, member: memberOn(id) })),
    scope:
      kind === "drill" ? { of: "cards", cards: [pick(cards, random).id, pick(cards, random).id] } : whole,
    feel: pick(["clean", "clean", "clean", "wobble", "stopped"], random),
    tempoStart: 112,
    tempoEnd: 113,
    key: null,
    slips: kind !== "solo" && random() < 0.5 ? [slip(), slip()] : [],
    writers: ["phone"],
  };
};
