/** Turns changes into items: which group, how weighty, in which words. */
import type { Board, SongFile } from "../../board/board.ts";
import { type Card, isShared, type Where } from "../../board/card.ts";
import { formatWhere } from "../../board/where.ts";
import { type Day, dayOf, isDay } from "../../lib/calendar.ts";
import { dayWords } from "../../lib/day-words.ts";
import { capital, cardName, listed, type Names, namesOf } from "../../readiness/names.ts";
import type { Change } from "./changes.ts";
import { entryName, sayEntry } from "./entry-words.ts";
import { type FactValue, PRESENT, type Whose } from "./fact.ts";
import type { Item, Line } from "./item.ts";

export interface Telling {
  readonly board: Board;
  readonly whose: Whose;
  /** Chairs of the member by song, in column order. */
  readonly chairsIn: (file: SongFile) => readonly string[];
  /** Band's day on which it is read: says the year only where it differs, and what is over. */
  readonly today: Day;
  /** Moment (ms) of the last look. */
  readonly since: number;
}

/** An item without what is counted from it. */
export type Told = Omit<Item, "key" | "version" | "covers" | "words">;

const NOTHING = {
  fate: "", lines: [], why: "", who: "", note: "", at: null, song: null, chair: null, card: null, gig: null,
  question: null, ruling: null, take: null,
} as const; // biome-ignore format: one glance

const text = (value: FactValue | undefined, entry: string): string => {
  const said = value?.[entry];
  return typeof said === "string" ? said : "";
};
const list = (value: FactValue | undefined, entry: string): readonly unknown[] => {
  const said = value?.[entry];
  return Array.isArray(said) ? said : [];
};
const by = (names: Names, id: string | undefined): string =>
  id === undefined || id === "" ? "" : `by ${names.member(id)}`;

const WEIGHT_RANK: Readonly<Record<string, number>> = { must: 90, lift: 62, polish: 40 };

/** What a telling knows of the song of a change. */
const songOf = (change: Change, { board }: Telling): SongFile | undefined =>
  board.songs.get(text(change.after ?? change.before, "song") || change.id);

const titleOf = (file: SongFile | undefined): string => file?.song.title ?? "A song that is off the board";

/** Entries that say nothing to a reader, or that the item says itself. */
const SILENT = new Set([PRESENT, "song", "card", "before", "by"]);

const linesFor = (change: Change, telling: Telling, skip: ReadonlySet<string> = SILENT): readonly Line[] => {
  const say = sayEntry(telling.board, songOf(change, telling), telling.today);
  return change.entries.flatMap((entry): readonly Line[] => {
    if (skip.has(entry)) return [];
    if (entry === "since" || entry.startsWith("again."))
      return [{ what: entryName(entry), before: null, after: "learn it again" }];
    const [before, after] = [change.before?.[entry], change.after?.[entry]].map((value) =>
      value === undefined ? null : say(entry)(value),
    );
    const cannot = (value: unknown, said: unknown) => value !== undefined && said === null;
    if (cannot(change.before?.[entry], before) || cannot(change.after?.[entry], after) || before === after)
      return [
        {
          what: entryName(entry),
          before: null,
          after: change.after?.[entry] === undefined ? "taken away" : "changed",
        },
      ];
    return [
      {
        what: entryName(entry),
        before: before ?? null,
        after: after ?? (entry === "level" ? "not started" : null),
      },
    ];
  });
};

const ruling = (change: Change, telling: Telling): Told => {
  const file = songOf(change, telling);
  const value = change.after ?? change.before;
  const found = file?.rulings.find(({ id }) => id === change.id);
  const about = text(value, "about");
  const card = file?.cards.find(({ id }) => id === text(value, "card"));
  const again = change.followers.some(({ entries }) =>
    entries.some((entry) => entry === "since" || entry.startsWith("again.")),
  );
  const said: Line = {
    what: about === "detail" ? "" : capital(about),
    before: change.fate === "changed" ? text(change.before, "text") : text(value, "before") || null,
    after: change.fate === "went" ? null : text(value, "text"),
  };
  return {
    ...NOTHING,
    group: "rulings",
    rank: 100,
    title: card === undefined ? titleOf(file) : `${titleOf(file)} · ${cardName(file as SongFile, card)}`,
    fate:
      change.fate === "went"
        ? found === undefined
          ? "withdrawn"
          : "no longer about a detail of yours"
        : again
          ? "learn it again"
          : "",
    lines: [change.fate === "went" ? { ...said, before: text(value, "text") } : said],
    why: text(value, "why"),
    who: by(namesOf(telling.board), found?.by),
    at: found?.at ?? null,
    song: file?.song.id ?? null,
    card: card?.id ?? null,
    chair: card?.chairs.find((chair) => file !== undefined && telling.chairsIn(file).includes(chair)) ?? null,
    ruling: change.id,
  };
};

const sharedNote = (card: Card, mine: readonly string[], names: Names): string => {
  const partners = card.chairs.filter((chair) => !mine.includes(chair)).map(names.chair);
  return !isShared(card) || partners.length === 0
    ? ""
    : `Shared with ${listed(partners)}: alone it stays practised until you have played it together.`;
};

const detail = (change: Change, telling: Telling): Told => {
  const file = songOf(change, telling);
  const names = namesOf(telling.board);
  const card = file?.cards.find(({ id }) => id === change.id);
  const value = change.after ?? change.before;
  const where = formatWhere((value?.where ?? {}) as Where, file?.sections ?? []);
  const weight = text(value, "weight");
  const mine = file === undefined ? [] : telling.chairsIn(file);
  const chairs = list(value, "chairs").filter((chair) => mine.includes(String(chair)));
  const isLate = card !== undefined && card.createdAt < telling.since;
  const fate =
    change.fate === "came" ? `${isLate ? "now yours too" : "new"} · ${weight}`
    : change.fate === "went" ? (card === undefined ? "taken off the board" : "no longer yours")
    : weight; // biome-ignore format: one decision
  const wording = card?.versions.text[0];
  const tellsWho = change.entries.includes("text") || change.fate === "came";
  const lines: readonly Line[] =
    change.fate === "changed"
      ? linesFor(change, telling)
      : [
          {
            what: "",
            before: change.fate === "went" ? text(value, "text") : null,
            after: change.fate === "went" ? null : text(value, "text"),
          },
          ...(change.fate === "came" && text(value, "right") !== ""
            ? [{ what: "Right when", before: null, after: text(value, "right") }]
            : []),
        ];
  const named =
    change.fate === "changed" && !change.entries.includes("text") ? ` · ‘${text(value, "text")}’` : "";
  return {
    ...NOTHING,
    group: "details",
    rank: (WEIGHT_RANK[weight] ?? 40) - (change.fate === "went" ? 20 : 0),
    title: `${titleOf(file)} · ${where}${named}`,
    fate,
    lines,
    who: tellsWho ? by(names, wording?.by || (change.fate === "came" ? card?.createdBy : "")) : "",
    note: card === undefined || change.fate === "went" ? "" : sharedNote(card, mine, names),
    at: tellsWho ? (wording?.at ?? null) : null,
    song: file?.song.id ?? null,
    chair: chairs.length > 0 ? String(chairs[0]) : null,
    card: card === undefined || change.fate === "went" ? null : card.id,
  };
};

const question = (change: Change, telling: Telling): Told => {
  const file = songOf(change, telling);
  const names = namesOf(telling.board);
  const found = file?.questions.find(({ id }) => id === change.id);
  const value = change.after ?? change.before;
  const isMine = text(value, "by") === telling.whose.member;
  const answers = list(value, "answers");
  const toMe = text(value, "to") === telling.whose.member;
  const last = found?.answers.at(-1);
  return {
    ...NOTHING,
    group: "questions",
    rank: change.fate === "went" ? 30 : isMine ? 80 : answers.length > 0 ? 50 : toMe ? 96 : 92,
    title: titleOf(file),
    fate:
      change.fate === "went"
        ? found === undefined
          ? "withdrawn"
          : "no longer for you"
        : isMine
          ? "answered"
          : answers.length > 0
            ? "answered meanwhile"
            : toMe
              ? "waits for you"
              : "waits for an answer",
    lines: [
      { what: "", before: null, after: text(value, "text") },
      ...answers.map((answer) => ({
        what: capital(by(names, String(Reflect.get(Object(answer), "by") ?? "")).slice(3)) || "Answer",
        before: null,
        after: String(Reflect.get(Object(answer), "text")),
      })),
    ],
    who: isMine ? "" : by(names, found?.by),
    at: (isMine ? last?.at : found?.at) ?? null,
    song: file?.song.id ?? null,
    card: found?.card ?? null,
    question: found?.id ?? null,
  };
};

const withWords = ({ followers }: Change): string => {
  const count = (kind: string): number => followers.filter((follower) => follower.kind === kind).length;
  const said = [
    ["song", "songs"],
    ["detail", "details"],
    ["ruling", "rulings"],
    ["take", "takes"],
  ].flatMap(([one = "", many = ""]) => {
    const n = count(one);
    return n === 0 ? [] : [`${n} ${n === 1 ? one : many}`];
  });
  return said.length === 0 ? "" : `${capital(listed(said))} with it.`;
};

const STAGE_SAID = new Set([...SILENT, "title"]);

const song = (change: Change, telling: Telling): Told => {
  const { board, since } = telling;
  const file = board.songs.get(change.id);
  const names = namesOf(board);
  const value = change.after ?? change.before;
  const chairs = listed(list(value, "chairs").map((chair) => names.chair(String(chair))));
  const seatsOnly =
    change.fate === "changed" &&
    change.entries.every((entry) => entry === "chairs" || entry.startsWith("part."));
  const isNew = file !== undefined && file.song.addedAt >= since;
  const isSeat =
    seatsOnly || (change.fate === "came" && !isNew) || (change.fate === "went" && file !== undefined);
  const fate =
    change.fate === "came" ? (isNew ? `new: you play ${chairs}` : `now yours: ${chairs}`)
    : change.fate === "went" ? (file === undefined ? "off the board" : `nothing to play any more; you had ${chairs}`)
    : ""; // biome-ignore format: one decision
  const lines = change.fate === "changed" ? linesFor(change, telling, STAGE_SAID) : [];
  const renamed: readonly Line[] =
    change.entries.includes("title") && change.fate === "changed"
      ? [{ what: "Title", before: text(change.before, "title"), after: text(change.after, "title") }]
      : [];
  const weighty = change.entries.some((entry) =>
    ["key", "tempo", "form", "ending", "countIn", "tuning", "capo", "stage"].includes(entry),
  );
  return {
    ...NOTHING,
    group: isSeat ? "seats" : "songs",
    rank: isSeat ? 72 : weighty || change.fate !== "changed" ? 76 : 35,
    title: text(value, "title") || titleOf(file),
    fate,
    lines: [...renamed, ...lines],
    note: withWords(change),
    song: file?.song.id ?? null,
  };
};

const chair = (change: Change, telling: Telling): Told => ({
  ...NOTHING,
  group: "seats",
  rank: 74,
  title: text(change.after ?? change.before, "name") || namesOf(telling.board).chair(change.id),
  fate: change.fate === "came" ? "now your chair" : change.fate === "went" ? "no longer your chair" : "",
  lines: change.fate === "changed" ? linesFor(change, telling) : [],
  note: withWords(change),
});

const dated = (change: Change, telling: Telling): Told => {
  const value = change.after ?? change.before;
  const day =
    change.kind === "gig" ? text(value, "date") : change.kind === "away" ? text(value, "to") : change.id;
  const isOver = isDay(day) && day < telling.today;
  const said = isDay(day) ? dayWords(day, { weekday: true, today: telling.today }) : "";
  const what =
    change.kind === "gig" ? text(value, "name") || text(value, "place") || "Gig"
    : change.kind === "away" ? "You are away" : "Rehearsal"; // biome-ignore format: one decision
  const onBoard = change.kind === "gig" && telling.board.gigs.some(({ id }) => id === change.id);
  const fate =
    change.fate === "came" ? "new"
    : change.fate === "went" ? (onBoard ? "you have no seat any more" : change.kind === "away" ? "withdrawn" : "called off")
    : ""; // biome-ignore format: one decision
  const facts =
    change.fate === "came"
      ? {
          ...change,
          entries: change.entries.filter((entry) =>
            ["place", "start", "seats", "standIn", "plan", "from"].includes(entry),
          ),
        }
      : change;
  return {
    ...NOTHING,
    group: "dates",
    rank: isOver
      ? 12
      : change.fate === "went" || change.entries.includes("date")
        ? 95
        : onBoard && change.fate === "came"
          ? 91
          : 70,
    title: `${what} · ${said}`,
    fate: isOver ? [fate, "over by now"].filter((part) => part !== "").join(", ") : fate,
    lines: change.fate === "went" ? [] : linesFor(facts, telling),
    gig: onBoard ? change.id : null,
  };
};

const mark = (change: Change, telling: Telling): Told => {
  const file = songOf(change, telling);
  const card = file?.cards.find(({ id }) => id === change.id);
  const about = file !== undefined && card !== undefined ? cardName(file, card) : "the part itself";
  return {
    ...NOTHING,
    group: "log",
    rank: 24,
    title: `${titleOf(file)} · ${about}`,
    fate: "marked for you on another device",
    lines: linesFor({ ...change, entries: ["level"] }, telling),
    at: file?.statuses.get(change.id)?.get(telling.whose.member)?.at ?? null,
    song: file?.song.id ?? null,
    card: card?.id ?? null,
  };
};

const band = (change: Change, telling: Telling): Told => ({
  ...NOTHING,
  group: "log",
  rank: 26,
  title: "The band",
  fate: "numbers the score is made with",
  lines: linesFor(change, telling),
});

const TELL = {
  ruling,
  detail,
  question,
  song,
  chair,
  gig: dated,
  rehearsal: dated,
  away: dated,
  mark,
  band,
} as const;

/** Everything but takes, which are told by the evening. */
export const tell = (change: Change & { readonly kind: keyof typeof TELL }, telling: Telling): Told =>
  TELL[change.kind](change, telling);

export const isTold = (change: Change): change is Change & { readonly kind: keyof typeof TELL } =>
  change.kind in TELL;

/** The band's day of a moment. */
export const bandDay = (board: Board, ms: number): Day => dayOf(ms, board.band.timeZone);
