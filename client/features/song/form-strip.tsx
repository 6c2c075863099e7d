import type { SongFile } from "#shared/board/board.ts";
import { barsOf } from "#shared/selectors/song-entries.ts";

export interface FormStripProps {
  readonly file: SongFile;
  /** Opens a section; without it the strip is for reading. */
  readonly onOpen?: (section: string) => void;
}

/** What differs from the song: `×2`, `6/8`, `96`, `to E`. */
const ownWords = ({ repeats, metre, tempo, key }: SongFile["sections"][number]): string =>
  [
    repeats > 1 ? `×${repeats}` : "",
    metre,
    tempo === null ? "" : String(tempo),
    key === "" ? "" : `to ${key}`,
  ]
    .filter((word) => word !== "")
    .join(" ");

/** The form drawn to scale, bars and repeats counted; a section is one box. */
export const FormStrip = ({ file, onOpen }: FormStripProps) => {
  const { sections } = file;
  if (sections.length === 0) return null;
  return (
    <ol aria-label={`Form, ${barsOf(file)} bars`} className="flex flex-wrap gap-y-1 py-2">
      {sections.map((section) => {
        const { id, name, bars, repeats, metre, tempo, key } = section;
        const own = ownWords({ ...section, repeats, metre, tempo, key });
        const inside = (
          <>
            <span className="block truncate font-semibold">{name}</span>
            <span className="caption block truncate">
              {bars}
              {own === "" ? "" : ` ${own}`}
              <span className="sr-only"> bars</span>
            </span>
          </>
        );
        const box = "min-h-12 w-full min-w-0 border border-control px-1.5 py-0.5 text-left text-small";
        return (
          <li
            key={id}
            className="min-w-14 border-r-2 border-ground"
            // A length in bars is data, not style.
            style={{ flexGrow: bars * repeats, flexBasis: `${Math.max(3.25, bars * repeats * 0.22)}rem` }}
          >
            {onOpen === undefined ? (
              <div className={box}>{inside}</div>
            ) : (
              <button type="button" className={`${box} hover:border-ink`} onClick={() => onOpen(id)}>
                {inside}
              </button>
            )}
          </li>
        );
      })}
    </ol>
  );
};
