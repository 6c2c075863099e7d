/** A random history of one song as a band's document, so that what is done to documents can be judged by its scores. */
import type { SongFile } from "#shared/board/board.ts";
import type { BoardDocument, Json, SetKey } from "#shared/document/board-document.ts";
import { CONSTANT_STARTS, constantIn } from "#shared/document/constant-keys.ts";
import { NONE, type RootMap } from "#shared/document/root-maps.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { MEMBERS } from "./histories.ts";

const put = (set: SetKey, map: RootMap, entity: string, fields: object): void => {
  for (const [field, value] of Object.entries(fields)) set(map, `${entity}/${field}`, value as Json);
};

const cards = (set: SetKey, file: SongFile): void => {
  for (const { id, text, right: _right, versions: _versions, since, ...body } of file.cards) {
    set("cards", `${id}/body`, body as unknown as Json);
    put(set, "cards", id, { since, deleted: false });
    set("texts", `${id}/text/phone`, { text, base: {}, at: 1 });
  }
  for (const [card, marks] of file.statuses) {
    for (const [member, { writer, ...mark }] of marks) set("statuses", `${card}/${member}/${writer}`, mark);
  }
};

/** Each take in a slot of its own, so that none is merged with another. */
const log = (set: SetKey, { song, takes }: SongFile): void => {
  takes.forEach(({ id: _id, occasion, slips, writers: _w, by: _by, no: _no, song: _song, ...mark }, i) => {
    const slot = `${occasion}/${song.id}/${i + 1}`;
    set("takes", `${slot}/phone`, { ...mark, withdrawn: false } as unknown as Json);
    for (const { chair, card, severity, at, writer } of slips)
      set("slips", `${slot}/${chair ?? NONE}/${card ?? NONE}/${writer}`, { severity, at });
  });
};

/** Writes the song, its log and everybody's marks; chairs are held as in the input's line-up. */
export const writeHistory = (
  document: BoardDocument,
  { file, chairs, lineUp, settings }: ScoreInput,
): void => {
  document.transact("history", (set) => {
    for (const { id } of chairs)
      put(set, "chairs", id, { name: id, holder: lineUp.get(id) ?? "", order: id, deleted: false });
    for (const id of MEMBERS) put(set, "people", id, { name: id, order: id, deleted: false });
    for (const key of CONSTANT_STARTS.keys()) set("settings", key, constantIn(settings, key));
    const { id, since, ...song } = file.song;
    const sinces = {
      keySince: since.key,
      tempoSince: since.tempo,
      formSince: since.form,
      endingSince: since.ending,
    };
    put(set, "songs", id, { ...song, ...sinces, deleted: false });
    for (const { id: section, song: _, ...fields } of file.sections)
      put(set, "sections", `${id}/${section}`, { ...fields, deleted: false });
    for (const { song: _, chair, holder, nothingSpecial, ...fields } of file.castings.values())
      put(set, "castings", `${id}/${chair}`, {
        ...fields,
        holder: holder ?? "",
        nothingSpecial: nothingSpecial ?? "",
      });
    cards(set, file);
    log(set, file);
  });
};
