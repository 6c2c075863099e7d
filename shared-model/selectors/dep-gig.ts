/**
 * What a dep sees: one gig with the details of the chair they sit in on.
 * Governing rule: a dep needs the night and nothing else. Nobody's statuses but the dep's own "got it", no scores, no
 * other gig, no names but those of who answered them.
 */
import type { Gig, GigSong } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, type LineUp, lineUpFor } from "../board/line-up.ts";
import type { Question } from "../board/question.ts";
import { formatWhere } from "../board/where.ts";
import type { DepDetail, DepGig, DepPart, DepQuestion, DepSong } from "../protocol/dep-api.ts";
import { sinceOf } from "../readiness/since.ts";
import { nightChord, nightLift } from "./night-facts.ts";

/** What the rendering is made from. */
interface Night {
  readonly board: Board;
  readonly gig: Gig;
  readonly member: Id;
}

/** Null when the gig, or the dep, is not on the board any more. */
export const depGig = (board: Board, gigId: Id, member: Id): DepGig | null => {
  const gig = board.gigs.find(({ id }) => id === gigId);
  const you = board.people.get(member);
  if (gig === undefined || you === undefined) return null;
  const songs = gig.songs.flatMap((entry) => {
    const file = board.songs.get(entry.song);
    return file === undefined ? [] : [songOf({ board, gig, member }, file, entry)];
  });
  const sat = new Set(songs.flatMap(({ parts }) => parts.map(({ chair }) => chair)));
  return {
    band: board.band.name,
    name: gig.name,
    place: gig.place,
    date: gig.date,
    call: gig.call,
    start: gig.start,
    dress: gig.dress,
    contact: gig.contact,
    you: you.name,
    chairs: board.chairs.filter(({ id }) => sat.has(id)).map(({ name }) => name),
    songs,
  };
};

const STRINGS: ReadonlySet<string> = new Set(["guitar", "bass"]);

const songOf = (
  night: Night,
  file: SongFile,
  tonight: Pick<GigSong, "key" | "tempo" | "tuning">,
): DepSong => {
  const { board, gig, member } = night;
  const { song } = file;
  const lineUp = lineUpFor(board, file, gig);
  const chairs = board.chairs.filter(({ id }) => lineUp.get(id) === member);
  const parts = chairs.map(({ id, name }) => ({ chair: id, name, tacet: !castingOf(file, id).plays }));
  const played = chairs.filter(({ id }) => castingOf(file, id).plays);
  const strings = played.some(({ instrument }) => STRINGS.has(instrument));
  const details = file.cards
    .filter((card) => applies(card, parts, lineUp))
    .map((card) => detailOf(night, file, card, parts));
  return {
    id: song.id,
    title: song.title,
    version: song.version,
    key: tonight.key ?? song.key,
    liftKey: nightLift(song, tonight.key),
    tempo: tonight.tempo ?? song.tempo,
    metre: song.metre,
    length: song.length,
    countIn: song.countIn,
    firstChord: nightChord(song, tonight.key),
    ending: song.ending,
    tuning: strings ? (tonight.tuning ?? (song.tuning || board.band.tuning)) : "",
    capo: played.some(({ instrument }) => instrument === "guitar") ? song.capo : 0,
    form: file.sections.map(({ name, bars }) => ({ name, bars })),
    parts,
    details,
    questions: file.questions
      .filter((question) => question.by === member && question.gig === gig.id)
      .map((question) => questionOf(night, question, details)),
  };
};

/** A cover detail applies only while the chair it stands in for is empty that night. */
const applies = (card: Card, parts: readonly DepPart[], lineUp: LineUp): boolean =>
  parts.some(({ chair, tacet }) => !tacet && card.chairs.includes(chair)) &&
  (card.without === undefined || (lineUp.get(card.without) ?? null) === null);

const detailOf = (
  { board, member }: Night,
  file: SongFile,
  card: Card,
  parts: readonly DepPart[],
): DepDetail => {
  const own = new Set(parts.map(({ chair }) => chair));
  const mark = file.statuses.get(card.id)?.get(member);
  const others = card.versions.text.map(({ text }) => text).filter((text) => text !== card.text);
  return {
    id: card.id,
    where: formatWhere(card.where, file.sections),
    weight: card.weight,
    kind: card.kind,
    text: card.text,
    right: card.right,
    otherwise: [...new Set(others)],
    shared: board.chairs
      .filter(({ id }) => card.chairs.includes(id) && !own.has(id) && castingOf(file, id).plays)
      .map(({ name }) => name),
    // What was understood before the detail changed has to be read again.
    gotIt: mark !== undefined && mark.level > 0 && Math.max(mark.at, mark.anchor) >= sinceOf(file, card),
  };
};

const questionOf = (
  { board }: Night,
  { id, card, text, answers }: Question,
  details: readonly DepDetail[],
): DepQuestion => ({
  id,
  card: details.some((detail) => detail.id === card) ? card : null,
  text,
  answers: answers.map((answer) => ({ text: answer.text, by: board.people.get(answer.by)?.name ?? "" })),
});
