import { useEffect, useRef, useState } from "react";
import { SideFields } from "#client/pieces/sides/side-fields.tsx";
import { Accordion } from "#client/ui/accordion.tsx";
import { Menu } from "#client/ui/menu.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { type CardKind, SIDE_NAMES, type SideName } from "#shared/board/card.ts";
import { parseWhere } from "#shared/board/parse-where.ts";
import { sideKinds } from "#shared/board/sides/detail-sides.ts";
import { SIDE_LABELS } from "#shared/board/sides/side-labels.ts";
import { GRID_KINDS, SHAPE_KINDS } from "#shared/selectors/grid-draft.ts";
import { gridCount } from "#shared/selectors/grid-study/grid-count.ts";
import type { Drawn } from "./drawn-draft.ts";
import { GridFields } from "./grid-fields.tsx";
import { ShapeFields } from "./shape-fields.tsx";

export interface DrawnFieldsProps {
  readonly drawn: Drawn;
  readonly onChange: (drawn: Drawn) => void;
  readonly song: SongFile;
  readonly kind: CardKind;
  /** Chairs of the detail. */
  readonly chairs: readonly string[];
  /** Where it applies, as it is typed. */
  readonly where: string;
}

type FormName = "grid" | "shape" | SideName;
const FORMS: readonly FormName[] = ["grid", "shape", ...SIDE_NAMES];
const labelOf = (form: FormName): string => (form === "grid" || form === "shape" ? form : SIDE_LABELS[form]);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const suits = (form: FormName, kind: CardKind): boolean =>
  form === "grid" ? GRID_KINDS.has(kind)
  : form === "shape" ? SHAPE_KINDS.has(kind)
  : sideKinds(form).includes(kind); // biome-ignore format: one decision

const isWritten = (form: FormName, drawn: Drawn): boolean =>
  form === "grid" ? drawn.grid !== null || drawn.recordedGrid !== null
  : form === "shape" ? drawn.shape !== null
  : drawn.sides[form] !== undefined; // biome-ignore format: one decision

const metreAt = (song: SongFile, where: string): string => {
  const place = parseWhere(where, song.sections);
  return gridCount(song, { where: place.ok ? place.value : {} }).metre;
};

const OneForm = ({
  form,
  drawn,
  onChange,
  song,
  chairs,
  where,
}: DrawnFieldsProps & { readonly form: FormName }) => {
  if (form === "grid")
    return (
      <GridFields
        grids={{ ours: drawn.grid, recorded: drawn.recordedGrid }}
        onChange={({ ours, recorded }) => onChange({ ...drawn, grid: ours, recordedGrid: recorded })}
        metre={metreAt(song, where)}
        chairs={chairs}
      />
    );
  if (form === "shape")
    return (
      <ShapeFields
        shape={drawn.shape}
        onChange={(shape) => onChange({ ...drawn, shape })}
        chairs={chairs}
        song={song.song}
      />
    );
  return (
    <SideFields
      side={form}
      value={drawn.sides[form] ?? null}
      onChange={(value) => {
        const { [form]: _, ...others } = drawn.sides;
        onChange({ ...drawn, sides: value === null ? others : { ...others, [form]: value } });
      }}
      song={song}
    />
  );
};

/** What a detail shows beside its words: the forms that suit its kind are there, every other one is a choice away. */
export const DrawnFields = (props: DrawnFieldsProps) => {
  const { drawn, kind } = props;
  const [added, setAdded] = useState<readonly FormName[]>([]);
  // A form that was written in stays when it is emptied, and when the kind is changed.
  const [written] = useState(() => FORMS.filter((form) => isWritten(form, drawn)));
  const shown = FORMS.filter(
    (form) => isWritten(form, drawn) || written.includes(form) || added.includes(form) || suits(form, kind),
  );
  const root = useRef<HTMLDivElement>(null);
  const last = added.at(-1);
  useEffect(() => {
    if (last !== undefined)
      root.current?.querySelector<HTMLElement>(`[data-form="${last}"] summary`)?.focus();
  }, [last]);
  const others = FORMS.filter((form) => !shown.includes(form));
  return (
    <div ref={root}>
      {shown.map((form) => (
        <div key={form} data-form={form}>
          <Accordion summary={capital(labelOf(form))} startOpen>
            <div className="py-2">
              <OneForm {...props} form={form} />
            </div>
          </Accordion>
        </div>
      ))}
      {others.length === 0 ? null : (
        <Menu
          trigger={shown.length === 0 ? "Show something beside the words" : "Add another beside the words"}
          items={others.map((form) => ({
            label: capital(labelOf(form)),
            onSelect: () => setAdded([...added, form]),
          }))}
          className="min-h-12 underline underline-offset-4"
        />
      )}
    </div>
  );
};
