import type { Where } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { parseWhere } from "../board/parse-where.ts";
import type { Level } from "../board/status.ts";
import { addDetail } from "../commands/add-detail.ts";
import { markDetail } from "../commands/mark-detail.ts";
import type { ChairCode, DemoCard, DemoDetails, Levels, PersonCode, SongCode } from "./demo-data.ts";
import { CHAIR_CODES } from "./demo-data.ts";
import { cardId, chairId, demoPartId, personId, songId } from "./demo-ids.ts";
import { holderOf } from "./demo-seats.ts";
import { LEADER } from "./people.ts";
import type { Seeder } from "./seeder.ts";

/** Writes a song's cards down and marks how far everybody is with them and with the parts themselves. */
export const seedDetails = (seeder: Seeder, details: DemoDetails): void => {
  for (const card of details.cards) {
    addCard(seeder, details, card);
    mark(seeder, details, card.levels, () => cardId(card.code));
  }
  mark(seeder, details, details.parts, (chair) => demoPartId(details.song, chair));
};

/** The chairs a card or a set of levels names, in the order given. */
const chairsOf = (levels: Levels): readonly ChairCode[] =>
  Object.keys(levels).flatMap((key) => CHAIR_CODES.filter((chair) => chair === key));

const addCard = ({ as, calendar, board }: Seeder, details: DemoDetails, card: DemoCard): void => {
  const chairs = chairsOf(card.levels);
  const { weight, kind, text, right, source } = card;
  const entry = {
    song: songId(details.song),
    chairs: chairs.map(chairId),
    where: placeOf(board().songs.get(songId(details.song))?.sections ?? [], card),
    ...(card.without === undefined ? {} : { without: chairId(card.without) }),
  };
  const then = calendar.at(details.written, 18);
  const by = writerOf(details.song, chairs);
  as(by, then, addDetail, { ...entry, weight, kind, text, right, source }, cardId(card.code));
};

/** A player writes down what is theirs alone; what is shared, or only spotted, comes from the leader. */
const writerOf = (song: SongCode, chairs: readonly ChairCode[]): PersonCode => {
  const [only, second] = chairs;
  return only === undefined || second !== undefined ? LEADER : (holderOf(song, only) ?? LEADER);
};

const placeOf = (sections: Parameters<typeof parseWhere>[1], { code, where }: DemoCard): Where => {
  const place = parseWhere(where, sections);
  if (!place.ok) throw new Error(`${code}: ${place.error}`);
  return place.value;
};

/** Each player marks on their own phone: one step lower half-way, then where they stand. */
const mark = (
  { as, calendar }: Seeder,
  { song, written, confirmed }: DemoDetails,
  levels: Levels,
  card: (chair: ChairCode) => Id,
): void => {
  const before = Math.floor((written + confirmed) / 2);
  for (const chair of chairsOf(levels)) {
    const level = levels[chair];
    const member = holderOf(song, chair);
    if (member === null || level === undefined || level === 0) continue;
    const args = { card: card(chair), member: personId(member) };
    if (level > 1)
      as(member, calendar.at(before, 18.5), markDetail, { ...args, level: (level - 1) as Level });
    as(member, calendar.at(confirmed, 22.25), markDetail, { ...args, level });
  }
};
