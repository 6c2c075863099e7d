/**
 * What concerns one member, and nothing else. The table:
 *
 * | fact | concerns me when | entries compared |
 * |---|---|---|
 * | ruling | I play the song; one on a detail: the detail is mine or nobody's | all but when |
 * | detail | it is given to a chair of mine in that song | all but its rank in the list and who began it |
 * | question | it is to me, about my detail, my chair, or a song I play; or I asked it | text, answers of others |
 * | song | I play it | all but its rank in the list, what its melody asks of a voice and what it is good for on a night; its form; my chairs; how my parts are cast and, where we say so ourselves, when they play |
 * | chair | I hold it | its name |
 * | gig | on or after the day I last looked, I am no dep or have a seat | its own entries, my seats, the order of my songs, their key, tempo and tuning |
 * | rehearsal | the same days | its own entries, my songs in the plan, where I stand in, when I am there |
 * | away | it is my absence | all but when it was said |
 * | take | of a song I play, at most 60 days older than my last look; work alone only if it is mine | what, how it went, slips |
 * | mark | mine, on a detail or part of mine | the level |
 * | band | always | tuning, time zone, the numbers the score is made with |
 *
 * I play a song when the usual line-up, or that of a gig on or after the day I last looked, seats me on a part that
 * is not tacet. Nothing here depends on the present moment: a board that nobody changes gives the same facts tomorrow.
 */
import type { Board, SongFile } from "../../board/board.ts";
import type { Card } from "../../board/card.ts";
import { type Id, partCardId } from "../../board/ids.ts";
import { castingOf, lineUpFor } from "../../board/line-up.ts";
import type { Question } from "../../board/question.ts";
import type { Take } from "../../board/take.ts";
import { textureKey } from "../../board/texture.ts";
import { addDays } from "../../lib/calendar.ts";
import { nightChord } from "../night-facts.ts";
import { dateFacts } from "./date-facts.ts";
import { type Fact, type FactKind, factValue, type Known, type Whose } from "./fact.ts";

/** Days before the last look whose takes still matter when they arrive or change late. */
const LATE_TAKES = 60;

/** Chairs on which the member plays in a song, in column order. */
export const chairsIn = (board: Board, file: SongFile, { member, from }: Whose): readonly Id[] => {
  const gigs = board.gigs.filter(
    ({ date, songs }) => date >= from && songs.some(({ song }) => song === file.song.id),
  );
  const lineUps = [null, ...gigs].map((gig) => lineUpFor(board, file, gig));
  return board.chairs
    .map(({ id }) => id)
    .filter((chair) => castingOf(file, chair).plays && lineUps.some((seats) => seats.get(chair) === member));
};

const always = (): boolean => true;
const never = (): boolean => false;

const fact = (kind: FactKind, id: Id, record: object, own: Fact["own"] = never): Fact => ({
  key: `${kind}:${id}`,
  kind,
  id,
  value: factValue(record as Readonly<Record<string, unknown>>),
  own,
});

const isMine = (card: Pick<Card, "chairs">, chairs: readonly Id[]): boolean =>
  card.chairs.some((chair) => chairs.includes(chair));

const detailFact = (card: Card, { member, since }: Whose): Fact => {
  const { id, order: _order, versions, createdBy, createdAt, chairs, sides, ...entries } = card;
  const wordings = [...new Set(versions.text.map(({ text }) => text))].sort();
  const record = {
    ...entries,
    chairs: [...chairs].sort(),
    wordings: wordings.length > 1 ? wordings : [],
    // As text: a fact leaves out what is off or nought, and an effect that is off is said.
    sides: sides === undefined ? "" : JSON.stringify(sides),
  };
  return fact("detail", id, record, (entry, isNew) => {
    if (entry === "text" || entry === "right") return (versions[entry][0]?.by ?? createdBy) === member;
    // What they spotted before their last look and others have placed since is news.
    return isNew && createdBy === member && createdAt >= since;
  });
};

const concernsQuestion = (question: Question, file: SongFile, chairs: readonly Id[], member: Id): boolean => {
  const { to } = question;
  if (question.by === member || to === member) return true;
  if (to !== null) return false;
  if (question.chair !== null && chairs.includes(question.chair)) return true;
  const card = file.cards.find(({ id }) => id === question.card);
  if (card !== undefined) return isMine(card, chairs);
  return question.chair === null && chairs.length > 0;
};

const questionFact = (question: Question, member: Id): Fact => {
  const { id, at: _at, answers, settled: _settled, ...entries } = question;
  const others = answers.filter(({ by }) => by !== member).map(({ text, by }) => ({ text, by }));
  return fact(
    "question",
    id,
    { ...entries, answers: others },
    (entry) => question.by === member && entry !== "answers",
  );
};

const takeFact = (take: Take, member: Id): Fact => {
  const { id, no: _no, at: _at, seats: _seats, writers: _writers, by = [], slips, ...entries } = take;
  const slipped = slips
    .map(({ chair, card, severity }) => ({ chair, card, severity }))
    .sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
  return fact(
    "take",
    id,
    { ...entries, slips: slipped },
    by.length === 1 && by[0] === member ? always : never,
  );
};

const isMyTake = ({ kind, seats }: Take, member: Id): boolean =>
  kind !== "solo" || seats.some((seat) => seat.member === member);

const songFact = (file: SongFile, chairs: readonly Id[]): Fact => {
  const {
    id,
    order: _order,
    addedAt: _addedAt,
    melody: _melody,
    firstChord: _firstChord,
    since,
    ...written
  } = file.song;
  const {
    tolerance: _tolerance,
    energy: _energy,
    floor: _floor,
    strong: _strong,
    hardToSing: _hard,
    ...entries
  } = written;
  const parts = chairs.map((chair) => {
    const { needed, share, nothingSpecial } = castingOf(file, chair);
    return [
      `part.${chair}`,
      { niceToHave: !needed, share: share === 1 ? null : share, nothingSpecial },
    ] as const;
  });
  const again = Object.entries(since).map(([subject, at]) => [`again.${subject}`, at] as const);
  const form = file.sections.map(({ name, bars, since: changed }) => [name, bars, changed]);
  const textures = chairs.map((chair) => [
    `texture.${chair}`,
    file.sections.flatMap((section) => {
      const changes = file.textures.get(textureKey(section.id, chair, "ours"));
      return changes === undefined ? [] : [[section.id, changes]];
    }),
  ]);
  const firstChord = nightChord(file.song, null);
  const record = {
    ...entries,
    firstChord,
    ...Object.fromEntries([...parts, ...again, ...textures]),
    form,
    chairs,
  };
  return fact("song", id, record);
};

/** One song's facts for a member; none while they neither play it nor asked about it. */
export function* songFacts(board: Board, file: SongFile, whose: Whose): Generator<Fact, void> {
  const { member, writer, from } = whose;
  const chairs = chairsIn(board, file, whose);
  for (const question of file.questions)
    if (concernsQuestion(question, file, chairs, member)) yield questionFact(question, member);
  if (chairs.length === 0) return;
  yield songFact(file, chairs);
  const mine = file.cards.filter((card) => isMine(card, chairs));
  for (const card of mine) yield detailFact(card, whose);
  for (const card of [
    ...mine.map(({ id }) => id),
    ...chairs.map((chair) => partCardId(file.song.id, chair)),
  ]) {
    const status = file.statuses.get(card)?.get(member);
    if (status !== undefined)
      yield fact("mark", card, { song: file.song.id, level: status.level }, () => status.writer === writer);
  }
  for (const { id, at: _at, by, over: _over, ...entries } of file.rulings) {
    const card = file.cards.find((candidate) => candidate.id === entries.card);
    if (card === undefined || card.chairs.length === 0 || isMine(card, chairs))
      yield fact("ruling", id, entries, () => by === member);
  }
  const oldest = addDays(from, -LATE_TAKES);
  for (const take of file.takes)
    if (isMyTake(take, member) && new Date(take.at).toISOString().slice(0, 10) >= oldest)
      yield takeFact(take, member);
}

/** Everything that concerns a member, one fact a step, so that a screen can rest in between. */
export function* concerning(board: Board, whose: Whose, known: Known = new Map()): Generator<Fact, void> {
  for (const file of board.songs.values()) yield* songFacts(board, file, whose);
  yield* bandFacts(board, whose, known);
}

/** What concerns a member besides songs: chairs, dates, how the band counts. */
export function* bandFacts(board: Board, whose: Whose, known: Known): Generator<Fact, void> {
  for (const chair of board.chairs)
    if (chair.holder === whose.member) yield fact("chair", chair.id, { name: chair.name });
  yield* dateFacts(board, whose, known);
  const { tuning, timeZone, settings } = board.band;
  const { cardsShown: _, ...numbers } = settings;
  yield fact("band", "band", { tuning, timeZone, ...numbers });
}

/** The facts as they are remembered. */
export const knownFrom = (facts: Iterable<Fact>): Known =>
  new Map([...facts].map(({ key, value }) => [key, value] as const));
