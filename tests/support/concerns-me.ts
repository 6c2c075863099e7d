/**
 * What a digest must tell, worked out the slow way and apart from it: every document key that differs, the record it
 * belongs to, and whether what a reader sees of that record concerns the member and differs.
 */
import type { Board, SongFile } from "#shared/board/board.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { ROOT_MAP_NAMES } from "#shared/document/root-maps.ts";

type Raw = ReadonlyMap<string, string>;

/** Every key of a document as `map key` → its value in JSON. */
export const rawOf = (document: Pick<BoardDocument, "entries">): Raw =>
  new Map(
    ROOT_MAP_NAMES.flatMap((map) =>
      [...document.entries(map)].map(([key, value]) => [`${map} ${key}`, JSON.stringify(value)] as const),
    ),
  );

export const keysThatDiffer = (before: Raw, after: Raw): readonly string[] =>
  [...new Set([...before.keys(), ...after.keys()])].filter((key) => before.get(key) !== after.get(key));

/** Seats of one song: the gig's, else the song's own, else the chair's; written out once more. */
const sits = (
  board: Board,
  file: SongFile,
  chair: string,
  gig: Board["gigs"][number] | null,
): string | null => {
  const cast = file.castings.get(chair);
  const holder = board.chairs.find(({ id }) => id === chair)?.holder ?? null;
  let who = cast?.holder ?? holder;
  if (gig?.lineUp.has(chair)) {
    const tonight = gig.lineUp.get(chair) ?? null;
    const namedForSong = cast?.holder !== null && cast?.holder !== undefined && cast.holder !== holder;
    if (!namedForSong || tonight === null) who = tonight;
  }
  return who !== null && board.people.has(who) ? who : null;
};

const mineIn = (board: Board, file: SongFile, me: string, from: string): readonly string[] =>
  board.chairs
    .filter(({ id }) => {
      if (file.castings.get(id)?.plays === false) return false;
      if (sits(board, file, id, null) === me) return true;
      return board.gigs.some(
        (gig) =>
          gig.date >= from &&
          gig.songs.some(({ song }) => song === file.song.id) &&
          sits(board, file, id, gig) === me,
      );
    })
    .map(({ id }) => id);

const sorted = (items: readonly string[]): readonly string[] => [...items].sort();

/** What the member sees of every record that concerns them, by the digest's key, as one string. */
export const seen = (board: Board, me: string, from: string, oldest: number): ReadonlyMap<string, string> => {
  const out = new Map<string, string>();
  const put = (key: string, ...what: readonly unknown[]): void => {
    out.set(
      key,
      JSON.stringify(what, (_, v) => (v instanceof Map ? [...v] : v)),
    );
  };
  for (const file of board.songs.values()) {
    const { song, sections, cards, takes, rulings, questions, statuses } = file;
    const mine = mineIn(board, file, me, from);
    const isMine = (id: string | null): boolean =>
      cards.some((card) => card.id === id && card.chairs.some((chair) => mine.includes(chair)));
    const isThere = (id: string | null): boolean => cards.some((card) => card.id === id);
    for (const q of questions) {
      const to = (q as { to?: string | null }).to ?? null;
      const about = isThere(q.card) ? isMine(q.card) : q.chair === null && mine.length > 0;
      const asked = to === null ? about || (q.chair !== null && mine.includes(q.chair)) : to === me;
      if (q.by === me || asked)
        put(
          `question:${q.id}`,
          q.text,
          q.card,
          q.chair,
          q.gig,
          to,
          q.answers.filter(({ by }) => by !== me).map(({ text, by }) => [text, by]),
        );
    }
    if (mine.length === 0) continue;
    const { order: _o, addedAt: _a, ...rest } = song;
    put(
      `song:${song.id}`,
      Object.entries(rest).sort(),
      sections.map(({ name, bars, since }) => [name, bars, since]),
      mine,
      mine.map((chair) => [
        file.castings.get(chair)?.needed ?? true,
        file.castings.get(chair)?.share ?? 1,
        file.castings.get(chair)?.nothingSpecial ?? null,
        sections
          .map(({ id }) => [id, file.textures.get(`${id}/${chair}/ours`) ?? null])
          .filter(([, said]) => said),
      ]),
    );
    for (const card of cards.filter(({ id }) => isMine(id))) {
      const { order: _1, versions, createdAt: _2, createdBy: _3, ...shown } = card;
      const texts = sorted([...new Set(versions.text.map(({ text }) => text))]);
      put(
        `detail:${card.id}`,
        Object.entries({ ...shown, chairs: sorted(card.chairs) }).sort(),
        texts.length > 1 ? texts : [],
      );
    }
    for (const [card, marks] of statuses) {
      const mark = marks.get(me);
      if (mark !== undefined && (isMine(card) || mine.some((chair) => card === `part:${song.id}:${chair}`)))
        put(`mark:${card}`, mark.level);
    }
    for (const r of rulings) {
      const card = cards.find(({ id }) => id === r.card);
      if (card === undefined || card.chairs.length === 0 || isMine(card.id))
        put(`ruling:${r.id}`, r.card, r.about, r.source, r.text, r.before, r.why);
    }
    for (const take of takes) {
      if (take.at < oldest || (take.kind === "solo" && !take.seats.some(({ member }) => member === me)))
        continue;
      put(
        `take:${take.id}`,
        take.kind,
        take.scope,
        take.feel,
        take.tempoStart,
        take.tempoEnd,
        take.key,
        sorted(take.slips.map(({ chair, card, severity }) => `${chair}/${card}/${severity}`)),
      );
    }
  }
  for (const chair of board.chairs) if (chair.holder === me) put(`chair:${chair.id}`, chair.name);
  const isDep = board.people.get(me)?.dep ?? true;
  const plays = (song: string, chair: string, gig: Board["gigs"][number] | null): boolean => {
    const file = board.songs.get(song);
    return (
      file !== undefined && file.castings.get(chair)?.plays !== false && sits(board, file, chair, gig) === me
    );
  };
  const chairs = board.chairs.map(({ id }) => id);
  for (const gig of board.gigs) {
    const usual = (chair: string) => board.chairs.find(({ id }) => id === chair)?.holder;
    const mine = gig.songs.filter(({ song }) => chairs.some((chair) => plays(song, chair, gig)));
    const seats = chairs.filter(
      (chair) =>
        (gig.lineUp.has(chair) ? gig.lineUp.get(chair) : usual(chair)) === me ||
        gig.songs.some(({ song }) => plays(song, chair, gig)),
    );
    if (gig.date >= from && (!isDep || seats.length > 0))
      put(
        `gig:${gig.id}`,
        gig.name,
        gig.place,
        gig.date,
        gig.minutes,
        seats,
        mine.map(({ song, key, tempo }) => [song, key, tempo]),
      );
  }
  for (const evening of board.rehearsals) {
    const standIn = [...evening.standIns].filter(([, person]) => person === me).map(([chair]) => chair);
    if (evening.day < from || (isDep && standIn.length === 0)) continue;
    const { place, start, booked, setUp, pause, packDown, gig, plan, attendance } = evening;
    const mine = plan.filter(({ song }) => chairs.some((chair) => plays(song, chair, null)));
    put(
      `rehearsal:${evening.day}`,
      place,
      start,
      booked,
      setUp,
      pause,
      packDown,
      gig,
      mine.map(({ song, runs }) => [song, runs]),
      sorted(standIn),
      attendance.get(me) ?? null,
    );
  }
  for (const { id, person, from: first, to } of board.aways)
    if (person === me && to >= from) put(`away:${id}`, first, to);
  const { cardsShown: _c, ...numbers } = board.band.settings;
  put("band:band", board.band.tuning, board.band.timeZone, numbers);
  return out;
};

/** The record a raw key is about, in the digest's words; several where seats hang on it. */
const aboutOf = (raw: string): RegExp => {
  const [map = "", key = ""] = [raw.slice(0, raw.indexOf(" ")), raw.slice(raw.indexOf(" ") + 1)];
  const [a = "", b = "", c = ""] = key.split("/");
  const exactly = (text: string): RegExp =>
    new RegExp(`^${text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}(~\\d+)?$`);
  if (map === "cards") return new RegExp(`^(detail|mark):${a}$|^(question|ruling):`);
  if (map === "texts") return exactly(`detail:${a}`);
  if (map === "statuses") return exactly(`mark:${a}`);
  if (map === "takes" || map === "slips") return exactly(`take:${a}/${b}/${c}`);
  if (map === "rulings") return exactly(`ruling:${a}`);
  if (map === "questions" || map === "answers") return exactly(`question:${a}`);
  if (map === "sections") return exactly(`song:${a}`);
  if (map === "band" || map === "settings") return exactly("band:band");
  // Whether a song or a seat is there decides about everything in it.
  return /./;
};

/** Keys that must be told: what the member sees of them differs. Fails where no document key accounts for it. */
export const mustBeTold = (
  before: BoardDocument,
  after: BoardDocument,
  me: string,
  from: string,
  oldest: number,
): ReadonlySet<string> => {
  const [was, is] = [before, after].map((document) => seen(readBoard(document), me, from, oldest));
  const touched = keysThatDiffer(rawOf(before), rawOf(after)).map(aboutOf);
  const told = new Set<string>();
  for (const key of new Set([...(was?.keys() ?? []), ...(is?.keys() ?? [])])) {
    if (was?.get(key) === is?.get(key)) continue;
    if (!touched.some((about) => about.test(key)))
      throw new Error(`${key} differs, and no key of the document does`);
    told.add(key);
  }
  return told;
};
