import type { SongFile } from "../../board/board.ts";
import { isPartCardId } from "../../board/ids.ts";
import { compareCodeUnits } from "../order-key.ts";
import type { RootMap } from "../root-maps.ts";
import type { IssueLog } from "./decode.ts";
import { createHoming } from "./homed-records.ts";
import type { KeyIndex } from "./key-index.ts";
import { namesChair, readCard, songOfBody } from "./read-card.ts";
import { readQuestion } from "./read-question.ts";
import {
  readCastings,
  readDismissed,
  readRuling,
  readSections,
  readSong,
  readTextures,
} from "./read-song.ts";
import { readStatuses } from "./read-status.ts";
import { readSlot, sameTakeSpan } from "./read-take.ts";
import { createShelf, publish, type Shelf } from "./song-shelf.ts";

type Index = { readonly [M in RootMap]: KeyIndex };
type Groups = ReadonlyMap<RootMap, ReadonlySet<string>>;

export interface SongReader {
  /**
   * Re-reads the named groups and returns the live songs by id; untouched files keep their reference.
   * `columns`: chairs that came or went; the cards that name them are read again.
   */
  readonly refresh: (
    groups: Groups,
    columns: ReadonlySet<string>,
    previous: ReadonlyMap<string, SongFile> | undefined,
  ) => ReadonlyMap<string, SongFile>;
}

/** Song of an implicit part card `part:songId:chairId`; chair ids contain no colon. */
const songOfPart = (cardId: string): string => cardId.slice("part:".length, cardId.lastIndexOf(":"));

/** Keeps one shelf per song and re-reads only what the touched keys belong to. */
export const createSongReader = (
  index: Index,
  isChair: (chair: string) => boolean,
  removed: Set<string>,
  issues: IssueLog,
): SongReader => {
  const shelves = new Map<string, Shelf>();
  const cardHome = new Map<string, string>();

  const shelfOf = (song: string): Shelf => {
    let shelf = shelves.get(song);
    if (shelf === undefined) {
      shelf = createShelf();
      shelves.set(song, shelf);
    }
    return shelf;
  };

  const mark = (map: RootMap, id: string, gone: boolean): void => {
    if (gone) removed.add(`${map}/${id}`);
    else removed.delete(`${map}/${id}`);
  };

  const takeSong = (id: string): void => {
    const shelf = shelfOf(id);
    const before = shelf.song?.length ?? null;
    shelf.song = readSong(id, index.songs.group(id), issues);
    shelf.dirty.add("song");
    mark("songs", id, shelf.song === null);
    if ((shelf.song?.length ?? null) !== before) for (const slot of shelf.slots.keys()) takeSlot(slot);
  };

  const takeSections = (song: string): void => {
    const shelf = shelfOf(song);
    const { live, removed: gone } = readSections(song, index.sections.group(song), issues);
    for (const section of live) mark("sections", `${song}/${section.id}`, false);
    for (const id of gone) mark("sections", `${song}/${id}`, true);
    shelf.sections = live;
    shelf.dirty.add("sections");
  };

  const takeCard = (id: string): void => {
    const raw = index.cards.group(id);
    const home = songOfBody(raw.get("body"));
    const known = cardHome.get(id);
    if (known !== undefined && known !== home) {
      const old = shelfOf(known);
      old.cards.delete(id);
      old.statuses.delete(id);
      old.dirty.add("cards").add("statuses");
    }
    if (home === null) cardHome.delete(id);
    else cardHome.set(id, home);
    const reading = readCard(id, raw, index.texts.group(id), isChair, issues);
    mark("cards", id, reading.state === "removed");
    if (home === null) return;
    const shelf = shelfOf(home);
    shelf.dirty.add("cards");
    if (reading.state === "live") shelf.cards.set(id, reading.card);
    else shelf.cards.delete(id);
    if (known !== home) takeStatuses(id);
  };

  const takeStatuses = (card: string): void => {
    // Read in any case: whether a mark is broken must not depend on what became of its card.
    const statuses = readStatuses(card, index.statuses.group(card), issues);
    const home = isPartCardId(card) ? songOfPart(card) : cardHome.get(card);
    // Marks may arrive before their card; they are shown when the card comes.
    if (home === undefined) return;
    const shelf = shelfOf(home);
    if (statuses.size > 0) shelf.statuses.set(card, statuses);
    else shelf.statuses.delete(card);
    shelf.dirty.add("statuses");
  };

  const takeSlot = (slot: string): void => {
    const [, song = ""] = slot.split("/");
    const shelf = shelfOf(song);
    const span = sameTakeSpan(shelf.song?.length ?? null);
    shelf.slots.set(slot, readSlot(slot, index.takes.group(slot), index.slips.group(slot), span, issues));
    shelf.dirty.add("takes");
  };

  const takeRuling = createHoming(
    {
      rawOf: (id) => index.rulings.group(id).get(""),
      read: (id, raw) => readRuling(id, raw, issues),
      on: (shelf) => shelf.rulings,
      dirt: "rulings",
    },
    shelfOf,
  );
  const takeQuestion = createHoming(
    {
      rawOf: (id) => index.questions.group(id).get(""),
      read: (id, raw) => readQuestion(id, raw, index.answers.group(id), issues),
      on: (shelf) => shelf.questions,
      dirt: "questions",
    },
    shelfOf,
  );

  /** Cards that name one of the chairs. */
  const cardsOn = (columns: ReadonlySet<string>): readonly string[] =>
    columns.size === 0
      ? []
      : [...index.cards.groups()].filter((card) => namesChair(index.cards.group(card), columns));

  const publishAll = (previous: ReadonlyMap<string, SongFile> | undefined): ReadonlyMap<string, SongFile> => {
    const changed = [...shelves].filter(
      ([id, shelf]) => shelf.dirty.size > 0 && (shelf.song !== null || previous?.has(id)),
    );
    if (previous !== undefined && changed.length === 0) return previous;
    const songs = new Map(previous);
    for (const [id, shelf] of changed) {
      if (shelf.song === null) songs.delete(id);
      else songs.set(id, publish(shelf, shelf.song, songs.get(id)));
    }
    return new Map([...songs].sort(([a], [b]) => compareCodeUnits(a, b)));
  };

  return {
    refresh: (groups, columns, previous) => {
      const of = (map: RootMap): Iterable<string> => groups.get(map) ?? [];
      for (const id of of("songs")) takeSong(id);
      for (const song of of("sections")) takeSections(song);
      for (const song of of("castings")) {
        const shelf = shelfOf(song);
        shelf.castings = readCastings(song, index.castings.group(song), issues);
        shelf.dirty.add("castings");
      }
      for (const song of of("textures")) {
        const shelf = shelfOf(song);
        shelf.textures = readTextures(song, index.textures.group(song), issues);
        shelf.dirty.add("textures");
      }
      for (const song of of("hints")) {
        const shelf = shelfOf(song);
        shelf.dismissed = readDismissed(song, index.hints.group(song), issues);
        shelf.dirty.add("textures");
      }
      const cards = new Set([...of("cards"), ...of("texts"), ...cardsOn(columns)]);
      for (const card of cards) if (index.cards.group(card).size > 0) takeCard(card);
      for (const card of of("statuses")) takeStatuses(card);
      for (const slot of new Set([...of("takes"), ...of("slips")])) takeSlot(slot);
      for (const id of of("rulings")) takeRuling(id);
      for (const id of new Set([...of("questions"), ...of("answers")])) takeQuestion(id);
      return publishAll(previous);
    },
  };
};
