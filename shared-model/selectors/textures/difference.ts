/** What we play otherwise than the record, in words. */
import type { Id } from "../../board/ids.ts";
import { soundsAlike } from "../../music/texture-changes.ts";
import { listed } from "../../readiness/names.ts";
import { playedWords } from "../texture-words.ts";
import type { Picture } from "./picture.ts";

export interface TextureDifference {
  readonly chair: Id;
  readonly sections: readonly Id[];
  /** `Keys in Verse 1: on the record it waits until bar 9, then plays; we play.` */
  readonly sentence: string;
}

/** True where both are painted and read differently. */
export const differs = (recorded: Picture, ours: Picture, part: number, section: number): boolean => {
  const [then, now] = [recorded.parts[part]?.cells[section], ours.parts[part]?.cells[section]];
  if (then === undefined || now === undefined || then.from === null || now.from === null) return false;
  return !soundsAlike(then.changes, now.changes, recorded.sections[section]?.bars ?? 0);
};

/** Part by part in playing order; sections of a part that differ alike are one line. Both pictures are of one song. */
export const textureDifferences = (recorded: Picture, ours: Picture): readonly TextureDifference[] =>
  recorded.parts.flatMap(({ chair, name, cells }, part) => {
    const byWords = new Map<string, { readonly ids: Id[]; readonly names: string[] }>();
    recorded.sections.forEach((section, s) => {
      if (!differs(recorded, ours, part, s)) return;
      const then = playedWords(cells[s]?.changes ?? [], section.bars);
      const now = playedWords(ours.parts[part]?.cells[s]?.changes ?? [], section.bars, "we");
      const words = `on the record it ${then}; we ${now}`;
      const line = byWords.get(words) ?? { ids: [], names: [] };
      line.ids.push(section.id);
      line.names.push(section.name);
      byWords.set(words, line);
    });
    return [...byWords].map(([words, { ids, names }]) => ({
      chair,
      sections: ids,
      sentence: `${name} in ${listed(names)}: ${words}.`,
    }));
  });
