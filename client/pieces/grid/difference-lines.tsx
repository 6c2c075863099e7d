import { useChairs } from "#client/store/hooks.ts";
import type { Grid } from "#shared/board/grid.ts";
import { differenceWords, UNEQUAL } from "#shared/selectors/grid-study/difference-words.ts";

export interface DifferenceLinesProps {
  readonly ours: Grid;
  readonly recorded: Grid;
  /** As it is written. */
  readonly metre: string;
}

/** What we play otherwise than the recording, a line for each row that differs. */
export const DifferenceLines = ({ ours, recorded, metre }: DifferenceLinesProps) => {
  const chairs = useChairs();
  const nameOf = (chair: string): string => chairs.find(({ id }) => id === chair)?.name ?? "A chair";
  const rows = differenceWords(recorded, ours, metre, nameOf);
  if (rows === null) return <p className="py-1">{UNEQUAL}</p>;
  const others = rows.filter(({ same }) => !same);
  if (others.length === 0) return <p className="py-1">As on the recording, note for note.</p>;
  return (
    <dl aria-label="Against the recording" className="py-1">
      {others.map(({ name, words }) => (
        <div key={name}>
          <dt className="inline font-semibold">{name}: </dt>
          <dd className="inline">{words}.</dd>
        </div>
      ))}
    </dl>
  );
};
