/**
 * A take as it is being put together on a phone, and what becomes of it.
 * Governing rule: an untouched draft is the common case, a run of the whole song by everybody who is here, today.
 */
import * as v from "valibot";
import type { Gig } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Feel, Seat, Severity, TakeKind } from "../board/take.ts";
import { type Day, endOfDay, isDay } from "../lib/calendar.ts";
import { dayWords } from "../lib/day-words.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { formatKey, parseKey } from "../music/key.ts";
import { capital, listed, type Names } from "../readiness/names.ts";
import { hereWords, seatsFor, type WhoIsHere } from "./seating.ts";

const slip = v.object({
  chair: v.nullable(v.string()),
  card: v.nullable(v.string()),
  severity: v.picklist([0.5, 1, 2]),
});

/** `day` null = today; `gig` null = the latest one. `scope` counts for drills and solo work only. */
const DRAFT = v.object({
  kind: v.picklist(["solo", "drill", "run", "gig"]),
  gig: v.nullable(v.string()),
  day: v.nullable(v.string()),
  scope: v.picklist(["whole", "sections", "details"]),
  sections: v.array(v.string()),
  details: v.array(v.string()),
  slips: v.array(slip),
  tempoStart: v.nullable(v.number()),
  tempoEnd: v.nullable(v.number()),
  key: v.string(),
});
export type TakeDraft = Readonly<v.InferOutput<typeof DRAFT>>;

export interface DraftSlip {
  readonly chair: Id | null;
  readonly card: Id | null;
  readonly severity: Severity;
}

export const EMPTY_TAKE: TakeDraft = {
  kind: "run",
  gig: null,
  day: null,
  scope: "whole",
  sections: [],
  details: [],
  slips: [],
  tempoStart: null,
  tempoEnd: null,
  key: "",
};

const KEPT = v.object({ today: v.string(), song: v.string(), draft: DRAFT });

/** A draft as it is kept over a reload: with its song, and the day it was begun. */
export const keepTakeDraft = (today: Day, song: Id, draft: TakeDraft): string =>
  JSON.stringify({ today, song, draft });

/** The kept draft of a song; a draft of an earlier day, of another song or nonsense leaves what fits of it. */
export const keptTakeDraft = (text: string, today: Day, song: Id): TakeDraft => {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return EMPTY_TAKE;
  }
  const kept = v.safeParse(KEPT, value);
  if (!kept.success || kept.output.today !== today) return EMPTY_TAKE;
  return kept.output.song === song ? kept.output.draft : nextTake(kept.output.draft);
};

/** What a draft leaves to the next take: a gig, solo work and an earlier day go on; a drill is over. */
export const nextTake = ({ kind, gig, day }: TakeDraft): TakeDraft => ({
  ...EMPTY_TAKE,
  kind: kind === "drill" ? "run" : kind,
  gig,
  day,
});

/** What a draft is read against. */
export interface TakeScene {
  readonly board: Pick<Board, "chairs" | "people" | "gigs">;
  readonly file: SongFile;
  readonly timeZone: string;
  readonly today: Day;
  /** Device clock, ms. */
  readonly now: number;
  /** Whose device this is. */
  readonly member: Id | null;
  readonly here: WhoIsHere;
}

/** Gigs that have been played or are being played, latest first. */
export const playedGigs = (gigs: readonly Gig[], today: Day): readonly Gig[] =>
  gigs.filter(({ date }) => date <= today).reverse();

const gigOf = (draft: TakeDraft, { board, today }: TakeScene): Gig | undefined => {
  const played = playedGigs(board.gigs, today);
  return played.find(({ id }) => id === draft.gig) ?? played[0];
};

/** Where in the form the trouble sits, and one sentence for people. */
export interface TakeFault {
  readonly field: "gig" | "day" | "scope" | "key" | "here" | "who";
  readonly sentence: string;
}

type Scope = { of: "whole" } | { of: "sections"; sections: Id[] } | { of: "cards"; cards: Id[] };

/** The arguments of logTake, all filled in. */
export interface TakeArgs {
  readonly song: Id;
  readonly occasion: string;
  readonly kind: TakeKind;
  readonly at: number;
  readonly seats: Seat[];
  readonly scope: Scope;
  readonly feel: Feel;
  readonly tempoStart: number | null;
  readonly tempoEnd: number | null;
  readonly key: string | null;
  readonly slips: DraftSlip[];
}

/** A take of an earlier day counts as played three hours before that day's end. */
const EVENING_MS = 3 * 3_600_000;

const momentOf = (day: Day, { today, now, timeZone }: TakeScene): number =>
  day === today ? now : endOfDay(day, timeZone) - EVENING_MS;

/** When and on which occasion. */
const occasionOf = (
  draft: TakeDraft,
  scene: TakeScene,
): Result<{ readonly occasion: string; readonly at: number }, TakeFault> => {
  if (draft.kind === "gig") {
    const gig = gigOf(draft, scene);
    return gig === undefined
      ? err({ field: "gig", sentence: "No gig has been played yet. Log it as a run." })
      : ok({ occasion: `g:${gig.id}`, at: momentOf(gig.date, scene) });
  }
  const day = draft.day ?? scene.today;
  if (!isDay(day)) return err({ field: "day", sentence: "This is not a day of the calendar." });
  if (day > scene.today)
    return err({ field: "day", sentence: "This day lies ahead. A take is logged once it has been played." });
  const at = momentOf(day, scene);
  if (draft.kind !== "solo") return ok({ occasion: `r:${day}`, at });
  return scene.member === null
    ? err({ field: "who", sentence: "Say who you are first: solo work belongs to one player." })
    : ok({ occasion: `s:${scene.member}:${day}`, at });
};

const scopeOf = (draft: TakeDraft, { file }: TakeScene): Result<Scope, TakeFault> => {
  const whole = draft.scope === "whole" || draft.kind === "run" || draft.kind === "gig";
  if (whole) return ok({ of: "whole" });
  if (draft.scope === "sections") {
    const sections = file.sections.map(({ id }) => id).filter((id) => draft.sections.includes(id));
    return sections.length > 0
      ? ok({ of: "sections", sections })
      : err({ field: "scope", sentence: "Tap the sections you played." });
  }
  const cards = file.cards.map(({ id }) => id).filter((id) => draft.details.includes(id));
  return cards.length > 0
    ? ok({ of: "cards", cards })
    : err({ field: "scope", sentence: "Tap the details you drilled." });
};

const seatsOf = (draft: TakeDraft, scene: TakeScene): Result<readonly Seat[], TakeFault> => {
  const { board, file, here, member } = scene;
  const gig = draft.kind === "gig" ? (gigOf(draft, scene) ?? null) : null;
  const all = seatsFor(board, file, here, gig);
  if (draft.kind === "solo") {
    const mine = seatsFor(board, file, { away: [], standIns: here.standIns }, null).filter(
      (seat) => seat.member === member,
    );
    return mine.length > 0
      ? ok(mine)
      : err({
          field: "who",
          sentence: "You have nothing to play in this song, so there is no solo work to log.",
        });
  }
  return all.length > 0
    ? ok(all)
    : err({ field: "here", sentence: "Nobody who plays this song is here. Say who is." });
};

/** The key where it differs from what was agreed for that night. */
const keyOf = (draft: TakeDraft, scene: TakeScene): Result<string | null, TakeFault> => {
  if (draft.key.trim() === "") return ok(null);
  const read = parseKey(draft.key);
  if (!read.ok) return err({ field: "key", sentence: read.error });
  const key = formatKey(read.value);
  const { song } = scene.file;
  const called =
    draft.kind === "gig" ? gigOf(draft, scene)?.songs.find((s) => s.song === song.id) : undefined;
  return ok(key === (called?.key ?? song.key) ? null : key);
};

/** What tapping a result logs; a fault names the field to mend. */
export const takeArgs = (draft: TakeDraft, feel: Feel, scene: TakeScene): Result<TakeArgs, TakeFault> => {
  const occasion = occasionOf(draft, scene);
  if (!occasion.ok) return occasion;
  const scope = scopeOf(draft, scene);
  if (!scope.ok) return scope;
  const seats = seatsOf(draft, scene);
  if (!seats.ok) return seats;
  const key = keyOf(draft, scene);
  if (!key.ok) return key;
  const cards = new Set(scene.file.cards.map(({ id }) => id));
  return ok({
    song: scene.file.song.id,
    ...occasion.value,
    kind: draft.kind,
    seats: [...seats.value],
    scope: scope.value,
    feel,
    tempoStart: draft.tempoStart,
    tempoEnd: draft.tempoEnd,
    key: key.value,
    slips: draft.slips.filter(({ card }) => card === null || cards.has(card)),
  });
};

const KIND_WORDS = { run: "run", drill: "drill", gig: "gig", solo: "solo work" } as const;

const scopeWords = (draft: TakeDraft, file: SongFile): string => {
  if (draft.kind === "run" || draft.kind === "gig" || draft.scope === "whole") return "whole song";
  if (draft.scope === "details")
    return draft.details.length === 1 ? "1 detail" : `${draft.details.length} details`;
  const played = file.sections.filter(({ id }) => draft.sections.includes(id)).map(({ name }) => name);
  return played.length === 0 ? "no section yet" : listed(played);
};

/** What a tap on a result logs, in words: `Run, whole song, everybody, today`. */
export const takeWords = (draft: TakeDraft, scene: TakeScene, names: Names): string => {
  const gig = draft.kind === "gig" ? gigOf(draft, scene) : undefined;
  const day = gig?.date ?? draft.day ?? scene.today;
  const words = [
    gig === undefined ? KIND_WORDS[draft.kind] : `gig, ${gig.name || gig.place}`,
    scopeWords(draft, scene.file),
    draft.kind === "run" || draft.kind === "drill" ? hereWords(scene.board, scene.here, names) : "",
    day === scene.today || !isDay(day) ? "today" : dayWords(day, { weekday: true, today: scene.today }),
    draft.slips.length === 0 ? "" : draft.slips.length === 1 ? "1 slip" : `${draft.slips.length} slips`,
  ];
  return capital(words.filter((word) => word !== "").join(", "));
};
