import { type Id, partCardId } from "../board/ids.ts";
import type { CardCode, ChairCode, PersonCode, SongCode } from "./demo-data.ts";

/** Ids of the demo's records: the same on every board, so that two demos can be compared. */
export const songId = (code: SongCode): Id => `demo-song-${code.toLowerCase()}`;
export const chairId = (code: ChairCode): Id => `demo-chair-${code.toLowerCase()}`;
export const personId = (code: PersonCode): Id => `demo-${code}`;
export const cardId = (code: CardCode): Id => `demo-card-${code.toLowerCase()}`;
export const gigId = (code: string): Id => `demo-gig-${code}`;
export const demoPartId = (song: SongCode, chair: ChairCode): Id => partCardId(songId(song), chairId(chair));
