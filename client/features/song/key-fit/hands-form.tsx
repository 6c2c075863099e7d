import { useAct } from "#client/pieces/use-act.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Choice } from "#client/ui/choice.tsx";
import type { Chair } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { castingOf } from "#shared/board/line-up.ts";
import { SHAPE_MATTERS, type ShapeMatters } from "#shared/board/song.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";

const WORDS: Readonly<Record<ShapeMatters, string>> = {
  "": "Does not matter",
  nice: "Is nice to keep",
  essential: "Is essential",
};

export interface HandsFormProps {
  readonly file: SongFile;
  readonly chairs: readonly Chair[];
}

/** How far the guitars hang on their shapes; absent where none plays. */
export const HandsForm = ({ file, chairs }: HandsFormProps) => {
  const act = useAct();
  const { id, title, shapeMatters, openLow } = file.song;
  const guitars = chairs.filter(({ instrument }) => instrument === "guitar");
  if (!guitars.some((chair) => castingOf(file, chair.id).plays)) return null;
  const change = (fields: { readonly shapeMatters?: ShapeMatters; readonly openLow?: boolean }) =>
    act(reviseSong, { song: id, fields }, `${title}: how the guitars hang on their shapes`);
  return (
    <div className="no-print flex flex-col gap-2">
      <Choice
        label="The shape under the guitarist's hand"
        value={shapeMatters}
        options={SHAPE_MATTERS.map((value) => ({ value, label: WORDS[value] }))}
        onChange={(value) => change({ shapeMatters: value })}
      />
      <Checkbox
        label="The riff needs the open lowest string"
        checked={openLow}
        onChange={(value) => change({ openLow: value })}
      />
    </div>
  );
};
