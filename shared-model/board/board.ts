/**
 * The board: everything a band's document says, decoded once into immutable values.
 * Governing rule: a record that did not change keeps its reference, so `===` answers "did it change?".
 */
import type { Band, Chair, Gig, Person } from "./band.ts";
import type { Card } from "./card.ts";
import type { Id } from "./ids.ts";
import type { Question } from "./question.ts";
import type { Away, Rehearsal } from "./rehearsal.ts";
import type { Casting, Ruling, Section, Song } from "./song.ts";
import type { Status, StatusMark } from "./status.ts";
import type { Take } from "./take.ts";
import type { TextureChanges } from "./texture.ts";

/** Everything the board knows about one song; the unit of structural sharing. */
export interface SongFile {
  readonly song: Song;
  /** In playing order. */
  readonly sections: readonly Section[];
  /** By chair; a chair without an entry is cast by default (plays, needed, default holder). */
  readonly castings: ReadonlyMap<Id, Casting>;
  /** Who plays when, by `textureKey`; a section and chair without an entry: nobody said. */
  readonly textures: ReadonlyMap<string, TextureChanges>;
  /** Hints about who plays when that are not shown for this song any more. */
  readonly dismissed: ReadonlySet<string>;
  /** In playing order (by place, then order key, then id). Includes spotted cards without a chair. */
  readonly cards: readonly Card[];
  /** By card id (part cards included), then by member id. */
  readonly statuses: ReadonlyMap<Id, ReadonlyMap<Id, Status>>;
  /** Ordered by (at, id). */
  readonly takes: readonly Take[];
  /** Ordered by (at, id). */
  readonly rulings: readonly Ruling[];
  /** Ordered by (at, id). */
  readonly questions: readonly Question[];
}

/** Something in the document the reader could not use. Nothing is lost: the raw value stays where it is. */
export interface Issue {
  readonly map: string;
  readonly key: string;
  /** One sentence for people. */
  readonly message: string;
}

export interface Board {
  readonly band: Band;
  /** In column order. */
  readonly chairs: readonly Chair[];
  readonly people: ReadonlyMap<Id, Person>;
  /** By date, then id. */
  readonly gigs: readonly Gig[];
  /** Evenings anything is known of, by day. */
  readonly rehearsals: readonly Rehearsal[];
  /** By first day, then id. */
  readonly aways: readonly Away[];
  /** By song id, deleted ones left out. */
  readonly songs: ReadonlyMap<Id, SongFile>;
  /** `map/id` of every record marked deleted; each can be restored. */
  readonly removed: ReadonlySet<string>;
  readonly issues: readonly Issue[];
  /** Migrations this document has been through. */
  readonly migrations: ReadonlySet<string>;
}

/** All device marks behind a status, newest first; read on demand for "who changed it last". */
export type StatusHistory = readonly StatusMark[];
