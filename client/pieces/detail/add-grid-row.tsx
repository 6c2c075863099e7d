import { useChairs } from "#client/store/hooks.ts";
import { Select } from "#client/ui/select.tsx";
import type { Chair } from "#shared/board/band.ts";
import { GRID_VOICES, type Grid, rowKey } from "#shared/board/grid.ts";
import { voiceName } from "#shared/music/grid-words.ts";
import { type RowId, withRow } from "#shared/selectors/grid-draft.ts";

const NONE = "";

interface Offer {
  readonly row: RowId;
  readonly label: string;
}

/** A chair as a whole; of drums every voice first, of everybody else their hands. */
const offersOf = ({ id, name, instrument }: Chair): readonly Offer[] => {
  const voices = instrument === "drums" ? GRID_VOICES : (["clap"] as const);
  const whole = { row: { chair: id }, label: name };
  const each = voices.map((voice) => ({
    row: { chair: id, voice },
    label: `${name}: ${voiceName(voice).toLowerCase()}`,
  }));
  return instrument === "drums" ? [...each, whole] : [whole, ...each];
};

/** One more row, of a chair or of one voice of it. */
export const AddGridRow = ({
  grid,
  onChange,
}: {
  readonly grid: Grid;
  readonly onChange: (grid: Grid) => void;
}) => {
  const taken = new Set(grid.rows.map(rowKey));
  const offers = useChairs()
    .flatMap(offersOf)
    .filter(({ row }) => !taken.has(rowKey(row)));
  if (offers.length === 0) return null;
  return (
    <Select
      label="Add a row for"
      value={NONE}
      options={[
        { value: NONE, label: "choose a chair or a voice", disabled: true },
        ...offers.map(({ row, label }) => ({ value: rowKey(row), label })),
      ]}
      onChange={(key) => {
        const offer = offers.find(({ row }) => rowKey(row) === key);
        if (offer !== undefined) onChange(withRow(grid, offer.row));
      }}
    />
  );
};
