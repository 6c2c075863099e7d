import type { ReactNode } from "react";
import { classNames } from "#client/ui/class-names.ts";
import { columnHeadRole, rowHeadRole, rowRole } from "#client/ui/grid-roles.ts";
import type { TextureSource } from "#shared/board/texture.ts";
import { playedWords } from "#shared/selectors/texture-words.ts";
import type { Energy } from "#shared/selectors/textures/energy.ts";
import type { PaintedPart, PaintedSection, Picture } from "#shared/selectors/textures/picture.ts";
import { EnergyColumn, EnergyFigure } from "./energy-marks.tsx";
import { TextureCell } from "./texture-cell.tsx";
import { type Brush, type CellPlace, type Stroke, usePainting } from "./use-painting.ts";

export interface TextureGridProps {
  readonly picture: Picture;
  readonly energy: Energy;
  readonly source: TextureSource;
  /** Cells that read otherwise than the record; none unless that is what one looks for. */
  readonly isMarked: (part: number, section: number) => boolean;
  /** Chairs nobody sits on. */
  readonly empty: ReadonlySet<string>;
  /** Sections down and chairs across, for a narrow screen. */
  readonly turned: boolean;
  readonly brush: Brush;
  readonly canPaint: boolean;
  readonly active: CellPlace | null;
  readonly onActive: (place: CellPlace) => void;
  readonly onPaint: (stroke: Stroke) => void;
  readonly onOpen: () => void;
}

const HEAD =
  "flex w-20 shrink-0 flex-col justify-center border-b border-r border-control pr-1 text-small leading-tight";

const ColumnHead = ({
  column,
  bars,
  children,
}: {
  readonly column: number;
  /** Its scale; null = all columns are of one width. */
  readonly bars: number | null;
  readonly children: ReactNode;
}) => (
  <div
    {...columnHeadRole(column)}
    className={classNames(
      "flex basis-0 flex-col justify-end overflow-hidden border-b border-r border-control px-0.5 pb-0.5 text-small leading-tight [overflow-wrap:anywhere]",
      bars === null ? "min-w-7 flex-1" : "min-w-10",
    )}
    style={bars === null ? undefined : { flexGrow: bars }}
  >
    {children}
  </div>
);

const Nobody = () => <span className="expression text-quiet">empty</span>;

/** Sections × chairs: how full each part plays, by fill and letter. Columns are to the scale of their bars. */
export const TextureGrid = (props: TextureGridProps) => {
  const { picture, energy, turned, source, canPaint, brush } = props;
  const { sections, parts } = picture;
  const sectionIds = sections.map(({ id }) => id);
  const chairIds = parts.map(({ chair }) => chair);
  const indexOf = ({ section, chair }: CellPlace) =>
    [chairIds.indexOf(chair), sectionIds.indexOf(section)] as const;
  const { overlay, handlers } = usePainting({
    brush,
    canPaint,
    changesAt: (place) => {
      const [p, s] = indexOf(place);
      return parts[p]?.cells[s]?.changes ?? [];
    },
    rows: turned ? sectionIds : chairIds,
    columns: turned ? chairIds : sectionIds,
    placeAt: (row, column) => (turned ? { section: row, chair: column } : { section: column, chair: row }),
    rowColumnOf: ({ section, chair }) => (turned ? [section, chair] : [chair, section]),
    onPaint: props.onPaint,
    onOpen: props.onOpen,
  });
  const cell = (part: PaintedPart, p: number, section: PaintedSection, s: number) => {
    const place = { section: section.id, chair: part.chair };
    const stored = part.cells[s];
    const laid = overlay(place);
    const changes = laid ?? stored?.changes ?? [];
    const taken = laid === null && source === "ours" && stored?.from === "recorded" ? ", as recorded" : "";
    const words = playedWords(changes, section.bars) || "not said";
    const marked = laid === null && props.isMarked(p, s);
    const [stopPart, stopSection] =
      props.active === null ? [0, 0] : indexOf(props.active).map((i) => Math.max(0, i));
    return (
      <TextureCell
        key={`${place.section}/${place.chair}`}
        {...place}
        bars={section.bars}
        changes={changes}
        own={taken === ""}
        marked={marked}
        label={`${part.name}, ${section.name}: ${words}${taken}${marked ? ", otherwise than the record" : ""}`}
        column={(turned ? p : s) + 2}
        isStop={p === stopPart && s === stopSection}
        turned={turned}
      />
    );
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: cells are to the scale of bars, which a table does not draw
    <div
      role="grid"
      aria-label="Who plays when"
      aria-readonly={!canPaint}
      aria-rowcount={(turned ? sections.length : parts.length) + 1}
      aria-colcount={(turned ? parts.length : sections.length) + 1}
      className={classNames(
        "border-l border-t border-control",
        canPaint && (brush === "next" ? "cursor-pointer" : "cursor-cell touch-none"),
      )}
      onFocus={({ target }) => {
        const { section, chair } = target.dataset;
        if (section !== undefined && chair !== undefined) props.onActive({ section, chair });
      }}
      {...handlers}
    >
      <div {...rowRole(1)} className="flex">
        <div {...columnHeadRole(1)} className={HEAD}>
          <span className="sr-only">{turned ? "Section" : "Part"}</span>
        </div>
        {turned
          ? parts.map(({ chair, short, name }, p) => (
              <ColumnHead key={chair} column={p + 2} bars={null}>
                <span aria-hidden="true">{short}</span>
                <span className="sr-only">{name}</span>
                {props.empty.has(chair) ? <Nobody /> : null}
              </ColumnHead>
            ))
          : sections.map(({ id, name, bars, passes }, s) => (
              <ColumnHead key={id} column={s + 2} bars={bars}>
                {name}
                <span className="text-quiet">
                  {bars}
                  {passes > 1 ? ` ×${passes}` : ""}
                </span>
              </ColumnHead>
            ))}
      </div>
      {turned
        ? sections.map((section, s) => (
            <div key={section.id} {...rowRole(s + 2)} className="flex">
              <div {...rowHeadRole(1)} className={HEAD}>
                <span className="[overflow-wrap:anywhere]">
                  {section.name}{" "}
                  <span className="text-quiet">
                    {section.bars}
                    {section.passes > 1 ? ` ×${section.passes}` : ""}
                  </span>
                </span>
                <EnergyFigure energy={energy} section={s} />
              </div>
              {parts.map((part, p) => cell(part, p, section, s))}
            </div>
          ))
        : parts.map((part, p) => (
            <div key={part.chair} {...rowRole(p + 2)} className="flex">
              <div {...rowHeadRole(1)} className={HEAD}>
                {part.name}
                {props.empty.has(part.chair) ? <Nobody /> : null}
              </div>
              {sections.map((section, s) => cell(part, p, section, s))}
            </div>
          ))}
      {turned ? null : (
        <div aria-hidden="true" className="flex">
          <div className={HEAD}>Energy</div>
          {sections.map((section, s) => (
            <EnergyColumn key={section.id} section={section} energy={energy} at={s} />
          ))}
        </div>
      )}
    </div>
  );
};
