/** Gigs, rehearsals and absences that concern one member; the table stands in `concerns.ts`. */
import type { Gig } from "../../board/band.ts";
import type { Board } from "../../board/board.ts";
import type { Id } from "../../board/ids.ts";
import { castingOf, lineUpFor, seatMeant } from "../../board/line-up.ts";
import type { Rehearsal } from "../../board/rehearsal.ts";
import { type Fact, factValue, type Known, type Whose } from "./fact.ts";

const never = (): boolean => false;

/** Chairs the member sits on that night, and the songs of it they play, in playing order. */
const seatedAt = (board: Board, gig: Pick<Gig, "lineUp"> | null, songs: readonly Id[], member: Id) => {
  const seats = new Set<Id>();
  const mine: Id[] = [];
  for (const song of songs) {
    const file = board.songs.get(song);
    if (file === undefined) continue;
    // Whoever says that they are away knows it: the gig is no other one to them.
    const lineUp = lineUpFor(board, file, gig === null ? null : { ...gig, away: [] });
    const chairs = board.chairs.filter(({ id }) => lineUp.get(id) === member && castingOf(file, id).plays);
    for (const { id } of chairs) seats.add(id);
    if (chairs.length > 0) mine.push(song);
  }
  for (const chair of board.chairs) if (seatMeant(chair, gig) === member) seats.add(chair.id);
  return { seats: board.chairs.map(({ id }) => id).filter((id) => seats.has(id)), mine };
};

const gigFact = (gig: Gig, board: Board, member: Id, fromDep: boolean): Fact | null => {
  const {
    id,
    songs,
    lineUp: _lineUp,
    away: _away,
    waivers: _waivers,
    blocks: _blocks,
    arc: _arc,
    talk: _talk,
    banned: _banned,
    requests: _requests,
    keysAsked: _keysAsked,
    note: _note,
    told: _told,
    ...entries
  } = gig;
  const { seats, mine } = seatedAt(
    board,
    gig,
    songs.map(({ song }) => song),
    member,
  );
  if (fromDep && seats.length === 0) return null;
  const tonight = Object.fromEntries(
    songs.flatMap(({ song, key, tempo, tuning }) =>
      mine.includes(song) && (key !== null || tempo !== null || tuning !== null)
        ? [[song, { key, tempo, tuning }]]
        : [],
    ),
  );
  const value = factValue({ ...entries, seats, order: mine, tonight });
  return { key: `gig:${id}`, kind: "gig", id, value, own: never };
};

const rehearsalFact = (rehearsal: Rehearsal, board: Board, member: Id): Fact => {
  const { day, startedAt: _s, endedAt: _e, plan, pins: _p, attendance, standIns, ...entries } = rehearsal;
  const { mine } = seatedAt(
    board,
    null,
    plan.map(({ song }) => song),
    member,
  );
  const value = factValue({
    ...entries,
    plan: plan.filter(({ song }) => mine.includes(song)).map(({ song, runs }) => [song, runs]),
    standIn: [...standIns].flatMap(([chair, person]) => (person === member ? [chair] : [])).sort(),
    you: attendance.has(member) ? { said: true, ...attendance.get(member) } : null,
  });
  return { key: `rehearsal:${day}`, kind: "rehearsal", id: day, value, own: never };
};

/** Dates before the member's last look are left out, unless they were known: then they may have been moved. */
export function* dateFacts(board: Board, { member, from }: Whose, known: Known): Generator<Fact, void> {
  const dep = board.people.get(member)?.dep ?? true;
  for (const gig of board.gigs) {
    if (gig.date < from && !known.has(`gig:${gig.id}`)) continue;
    const fact = gigFact(gig, board, member, dep);
    if (fact !== null) yield fact;
  }
  for (const rehearsal of board.rehearsals)
    if (rehearsal.day >= from && (!dep || [...rehearsal.standIns.values()].includes(member)))
      yield rehearsalFact(rehearsal, board, member);
  for (const { id, person, by, at: _at, ...entries } of board.aways)
    if (person === member && entries.to >= from)
      yield { key: `away:${id}`, kind: "away", id, value: factValue(entries), own: () => by === member };
}
