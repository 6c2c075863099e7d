import { GridView } from "#client/pieces/grid-view.tsx";
import { useChairs } from "#client/store/hooks.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { SuggestedDetail } from "#shared/exchange/score/import-choices.ts";
import type { SongFacts } from "#shared/exchange/score/song-facts.ts";

export interface SuggestedListProps {
  readonly details: readonly SuggestedDetail[];
  readonly song: SongFacts;
  /** Keys of details that are left out. */
  readonly left: ReadonlySet<string>;
  readonly onTake: (key: string, taken: boolean) => void;
}

/** Details that the file suggests, each with its bar. */
export const SuggestedList = ({ details, song, left, onTake }: SuggestedListProps) => {
  const chairs = useChairs();
  if (details.length === 0) return null;
  return (
    <>
      <SectionHeading
        title="Details for the board"
        aside={`${details.filter(({ key }) => !left.has(key)).length} taken`}
      />
      <ul>
        {details.map(({ key, text, chair, grid, because, section }) => (
          <li key={key} className="border-b border-line py-1.5">
            <Checkbox
              label={text}
              hint={`${chairs.find(({ id }) => id === chair)?.name ?? "A chair"} · ${because}`}
              checked={!left.has(key)}
              onChange={(taken) => onTake(key, taken)}
            />
            {grid === null ? null : (
              <div className="ml-9">
                <GridView grid={grid} metre={song.form[section ?? 0]?.metre ?? song.metre} />
              </div>
            )}
          </li>
        ))}
      </ul>
    </>
  );
};
