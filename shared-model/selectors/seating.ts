/** Who is in the room tonight, and therefore who sat where in a take. */
import * as v from "valibot";
import type { Chair, Gig } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, lineUpFor } from "../board/line-up.ts";
import type { Seat } from "../board/take.ts";
import type { Day } from "../lib/calendar.ts";
import { listed, type Names } from "../readiness/names.ts";

/** Set once per evening; everybody else of the band is taken to be there. */
export interface WhoIsHere {
  /** Members who are not there. */
  readonly away: readonly Id[];
  /** Chair → who sits on it while its usual player is away, or because nobody holds it. */
  readonly standIns: Readonly<Record<Id, Id>>;
}

export const EVERYBODY: WhoIsHere = { away: [], standIns: {} };

type People = Pick<Board, "chairs" | "people">;

/**
 * The seats of a take. In the room: the usual line-up without those who are away, stand-ins on the chairs left empty.
 * At a gig: the gig's own line-up. Chairs with nothing to play in the song are left out.
 */
export const seatsFor = (
  board: People,
  file: SongFile,
  here: WhoIsHere,
  gig: Pick<Gig, "lineUp"> | null,
): readonly Seat[] => {
  const lineUp = lineUpFor(board, file, gig);
  const away = new Set(gig === null ? here.away : []);
  return board.chairs.flatMap(({ id: chair }): Seat[] => {
    if (!castingOf(file, chair).plays) return [];
    const usual = lineUp.get(chair) ?? null;
    const standIn = gig === null ? (here.standIns[chair] ?? null) : null;
    const member = usual === null || away.has(usual) ? standIn : usual;
    return member !== null && board.people.has(member) && !away.has(member) ? [{ chair, member }] : [];
  });
};

/** Chairs whose usual player is away, and vacant ones: where somebody could sit in. */
export const emptyChairs = ({ chairs, people }: People, { away }: WhoIsHere): readonly Chair[] =>
  chairs.filter(({ holder }) => holder === null || !people.has(holder) || away.includes(holder));

/** The members a band expects: those who hold a chair. Deps come in by sitting on one. */
export const expected = ({ chairs, people }: People): readonly Id[] =>
  [...people.keys()].filter((id) => chairs.some(({ holder }) => holder === id));

/** With somebody marked away, or there after all. Stand-ins leave chairs that are filled again. */
export const withPresence = (board: People, here: WhoIsHere, member: Id, present: boolean): WhoIsHere => {
  const away = here.away.filter((id) => id !== member).concat(present ? [] : [member]);
  const free = new Set(emptyChairs(board, { away, standIns: {} }).map(({ id }) => id));
  const standIns = Object.fromEntries(
    Object.entries(here.standIns).filter(([chair, sitsIn]) => free.has(chair) && !away.includes(sitsIn)),
  );
  return { away, standIns };
};

/** With somebody sitting in on a chair; null = nobody. */
export const withStandIn = (here: WhoIsHere, chair: Id, member: Id | null): WhoIsHere => ({
  ...here,
  standIns: Object.fromEntries([
    ...Object.entries(here.standIns).filter(([other]) => other !== chair),
    ...(member === null ? [] : [[chair, member]]),
  ]),
});

/** In words: `everybody`, `everybody but Ifeoma Adisalu, Karim Belhossat on Bass`. */
export const hereWords = (board: People, { away, standIns }: WhoIsHere, names: Names): string => {
  const missing = away.filter((id) => board.people.has(id)).map(names.member);
  const sitting = board.chairs.flatMap(({ id }) => {
    const member = standIns[id];
    return member === undefined ? [] : [`${names.member(member)} on ${names.chair(id)}`];
  });
  const all = missing.length === 0 ? "everybody" : `everybody but ${listed(missing)}`;
  return [all, ...sitting].join(", ");
};

const KEPT = v.record(
  v.string(),
  v.object({ away: v.array(v.string()), standIns: v.record(v.string(), v.string()) }),
);

/** Evenings worth remembering: this one, and those somebody may still log something for. */
const EVENINGS_KEPT = 5;

/** Evenings as a device keeps them; the latest only. */
export const keepHere = (evenings: ReadonlyMap<Day, WhoIsHere>): string =>
  JSON.stringify(Object.fromEntries([...evenings].sort().slice(-EVENINGS_KEPT)));

/** Reads what `keepHere` wrote; nonsense counts as nothing. */
export const keptHere = (text: string): ReadonlyMap<Day, WhoIsHere> => {
  try {
    const kept = v.safeParse(KEPT, JSON.parse(text));
    return new Map(kept.success ? Object.entries(kept.output) : []);
  } catch {
    return new Map();
  }
};
