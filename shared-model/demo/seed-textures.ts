import { paintTexture } from "../commands/paint-texture.ts";
import { wholeSection } from "../music/texture-changes.ts";
import { chairId, songId } from "./demo-ids.ts";
import { LEADER } from "./people.ts";
import type { Seeder } from "./seeder.ts";
import { DEMO_TEXTURES } from "./textures.ts";

/** The evening (in days of the season) on which somebody sat down and listened to who plays when. */
const LISTENED = -34;

/** Paints who plays when, as recorded and as the band plays it. Throws on a section that its song does not have. */
export const seedTextures = ({ as, board, calendar }: Seeder): void => {
  for (const { song, source, rows, entries } of DEMO_TEXTURES) {
    const id = songId(song);
    const sections = board().songs.get(id)?.sections ?? [];
    const whole = [...rows].flatMap(([chair, row]) =>
      row.flatMap((presence, i) => {
        const section = sections[i]?.id ?? "";
        return presence === null
          ? []
          : [{ section, chair: chairId(chair), changes: [...wholeSection(presence)] }];
      }),
    );
    const halfway = entries.map(({ chair, section, changes }) => ({
      section: sections.find(({ name }) => name === section)?.id ?? "",
      chair: chairId(chair),
      changes: [...changes],
    }));
    as(LEADER, calendar.at(LISTENED, 21), paintTexture, { song: id, source, cells: [...whole, ...halfway] });
  }
};
