import type { SongFile } from "../../board/board.ts";
import type { Card } from "../../board/card.ts";
import type { Question } from "../../board/question.ts";
import type { Casting, Ruling, Section, Song } from "../../board/song.ts";
import type { Status } from "../../board/status.ts";
import type { Take } from "../../board/take.ts";
import { compareWhere } from "../../board/where.ts";
import { byOrder, compareCodeUnits } from "../order-key.ts";

/** Working copy of one song's records while keys arrive; `publish` turns it into an immutable SongFile. */
export interface Shelf {
  song: Song | null;
  sections: readonly Section[];
  castings: ReadonlyMap<string, Casting>;
  textures: SongFile["textures"];
  dismissed: ReadonlySet<string>;
  readonly cards: Map<string, Card>;
  readonly statuses: Map<string, ReadonlyMap<string, Status>>;
  readonly slots: Map<string, readonly Take[]>;
  readonly rulings: Map<string, Ruling>;
  readonly questions: Map<string, Question>;
  readonly dirty: Set<
    "song" | "sections" | "castings" | "textures" | "cards" | "statuses" | "takes" | "rulings" | "questions"
  >;
}

export const createShelf = (): Shelf => ({
  song: null,
  sections: [],
  castings: new Map(),
  textures: new Map(),
  dismissed: new Set(),
  cards: new Map(),
  statuses: new Map(),
  slots: new Map(),
  rulings: new Map(),
  questions: new Map(),
  dirty: new Set(),
});

const byMoment = (
  a: { readonly at: number; readonly id: string },
  b: { readonly at: number; readonly id: string },
): number => a.at - b.at || compareCodeUnits(a.id, b.id);

const sortCards = (shelf: Shelf): readonly Card[] =>
  [...shelf.cards.values()].sort((a, b) => compareWhere(a.where, b.where, shelf.sections) || byOrder(a, b));

/** Statuses in card order, so that two replicas iterate alike whatever arrived first. */
const sortStatuses = (shelf: Shelf): SongFile["statuses"] =>
  new Map([...shelf.statuses].sort(([a], [b]) => compareCodeUnits(a, b)));

/** The immutable file of a live song; sub-collections that are not dirty keep their reference. */
export const publish = (shelf: Shelf, song: Song, previous: SongFile | undefined): SongFile => {
  const { dirty } = shelf;
  const keep = <K extends keyof SongFile>(key: K, stale: boolean, build: () => SongFile[K]): SongFile[K] =>
    previous !== undefined && !stale ? previous[key] : build();
  const file: SongFile = {
    song,
    sections: shelf.sections,
    castings: shelf.castings,
    textures: shelf.textures,
    dismissed: shelf.dismissed,
    cards: keep("cards", dirty.has("cards") || dirty.has("sections"), () => sortCards(shelf)),
    statuses: keep("statuses", dirty.has("statuses"), () => sortStatuses(shelf)),
    takes: keep("takes", dirty.has("takes"), () => [...shelf.slots.values()].flat().sort(byMoment)),
    rulings: keep("rulings", dirty.has("rulings"), () => [...shelf.rulings.values()].sort(byMoment)),
    questions: keep("questions", dirty.has("questions"), () => [...shelf.questions.values()].sort(byMoment)),
  };
  dirty.clear();
  return file;
};
