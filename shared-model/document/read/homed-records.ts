import { songOfBody } from "./read-card.ts";
import type { Shelf } from "./song-shelf.ts";

/** Records whose value names the song they are about, and that stand on that song's shelf. */
export interface HomedRecords<T> {
  /** The value that names the song. */
  readonly rawOf: (id: string) => unknown;
  /** Reads it in any case, so that a record about no song is reported too; null = nothing to show. */
  readonly read: (id: string, raw: unknown) => T | null;
  readonly on: (shelf: Shelf) => Map<string, T>;
  readonly dirt: "rulings" | "questions";
}

/** Takes in one record by its id, wherever it stood before. */
export const createHoming = <T>(
  { rawOf, read, on, dirt }: HomedRecords<T>,
  shelfOf: (song: string) => Shelf,
): ((id: string) => void) => {
  const homes = new Map<string, string>();
  return (id) => {
    const raw = rawOf(id);
    const home = songOfBody(raw);
    const known = homes.get(id);
    if (known !== undefined && known !== home) {
      const old = shelfOf(known);
      on(old).delete(id);
      old.dirty.add(dirt);
    }
    const record = read(id, raw);
    if (home === null) {
      homes.delete(id);
      return;
    }
    homes.set(id, home);
    const shelf = shelfOf(home);
    if (record === null) on(shelf).delete(id);
    else on(shelf).set(id, record);
    shelf.dirty.add(dirt);
  };
};
