/** Painting cells by drag, tap and keyboard. What a stroke covers is kept here until it is done, and is one change then. */
import { type KeyboardEvent, type MouseEvent, type PointerEvent, useRef, useState } from "react";
import { PRESENCES, type Presence, type TextureChanges } from "#shared/board/texture.ts";
import { presenceAt, wholeSection } from "#shared/music/texture-changes.ts";

/** What a stroke paints: a presence, *not said*, or the next presence of the cell where it begins. */
export type Brush = Presence | "next" | "clear";

export interface CellPlace {
  readonly section: string;
  readonly chair: string;
}

export interface Stroke {
  /** Null = not said any more. */
  readonly presence: Presence | null;
  readonly cells: readonly CellPlace[];
}

export interface PaintingOf {
  readonly brush: Brush;
  readonly canPaint: boolean;
  readonly changesAt: (place: CellPlace) => TextureChanges;
  /** Chairs and sections as rows and columns of the screen. */
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  readonly placeAt: (row: string, column: string) => CellPlace;
  readonly rowColumnOf: (place: CellPlace) => readonly [row: string, column: string];
  readonly onPaint: (stroke: Stroke) => void;
  readonly onOpen: () => void;
}

const KEYS: Readonly<Record<string, Presence | null>> = {
  "0": "rest", "1": "light", "2": "play", "3": "full",
  r: "rest", l: "light", p: "play", f: "full",
  Delete: null, Backspace: null,
}; // biome-ignore format: the two ways side by side

const ARROWS: Readonly<Record<string, readonly [row: number, column: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

const cellAt = (element: Element | null): HTMLElement | null =>
  element?.closest<HTMLElement>("[data-section][data-chair]") ?? null;

const placeOf = (element: Element | null): CellPlace | null => {
  const { section, chair } = cellAt(element)?.dataset ?? {};
  return section === undefined || chair === undefined ? null : { section, chair };
};

const isSame = (a: CellPlace, b: CellPlace): boolean => a.section === b.section && a.chair === b.chair;
const clamp = (at: number, length: number): number => Math.max(0, Math.min(length - 1, at));

/** Round the presences, beginning with *play* where nothing is said. */
const nextOf = (changes: TextureChanges): Presence => {
  const now = presenceAt(changes, 1, 0);
  return now === null ? "play" : (PRESENCES[(PRESENCES.indexOf(now) + 1) % PRESENCES.length] ?? "play");
};

export const usePainting = (of: PaintingOf) => {
  const { brush, canPaint, changesAt, rows, columns, onPaint } = of;
  const [stroke, setStroke] = useState<Stroke | null>(null);
  // Events of one stroke may come faster than renders.
  const running = useRef<Stroke | null>(null);
  const painted = useRef(false);
  const put = (next: Stroke | null): void => {
    running.current = next;
    setStroke(next);
  };
  const brushFor = (place: CellPlace): Presence | null =>
    brush === "clear" ? null : brush === "next" ? nextOf(changesAt(place)) : brush;
  const focus = (grid: HTMLElement, { section, chair }: CellPlace): void => {
    const cell = grid.querySelector<HTMLElement>(
      `[data-section="${CSS.escape(section)}"][data-chair="${CSS.escape(chair)}"]`,
    );
    cell?.focus({ preventScroll: true });
    cell?.scrollIntoView({ block: "nearest", inline: "nearest" });
  };

  const onPointerDown = (event: PointerEvent<HTMLElement>): void => {
    painted.current = false;
    const place = event.target instanceof Element ? placeOf(event.target) : null;
    if (place === null || !canPaint || event.button !== 0 || !event.isPrimary) return;
    // Without a level a finger scrolls the page as it does elsewhere, and a tap goes on to the next level.
    if (event.pointerType === "touch" && brush === "next") return;
    event.preventDefault();
    event.currentTarget.setPointerCapture(event.pointerId);
    cellAt(event.target as Element)?.focus({ preventScroll: true });
    put({ presence: brushFor(place), cells: [place] });
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    const now = running.current;
    if (now === null) return;
    const place = placeOf(document.elementFromPoint(event.clientX, event.clientY));
    if (place === null || now.cells.some((one) => isSame(one, place))) return;
    put({ ...now, cells: [...now.cells, place] });
  };
  const onPointerUp = (): void => {
    const done = running.current;
    put(null);
    if (done === null) return;
    painted.current = true;
    onPaint(done);
  };
  /** Taps without a level, and whatever presses a cell without a pointer. */
  const onClick = (event: MouseEvent<HTMLElement>): void => {
    const place = event.target instanceof Element ? placeOf(event.target) : null;
    const done = painted.current;
    painted.current = false;
    if (done || place === null || !canPaint) return;
    onPaint({ presence: brushFor(place), cells: [place] });
  };

  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    const place = event.target instanceof Element ? placeOf(event.target) : null;
    if (place === null || event.altKey || event.metaKey) return;
    const [row, column] = of.rowColumnOf(place);
    const [r, c] = [rows.indexOf(row), columns.indexOf(column)];
    const goTo = (nextRow: number, nextColumn: number): CellPlace => {
      const to = of.placeAt(
        rows[clamp(nextRow, rows.length)] ?? row,
        columns[clamp(nextColumn, columns.length)] ?? column,
      );
      focus(event.currentTarget, to);
      return to;
    };
    const by = ARROWS[event.key];
    if (by !== undefined) {
      event.preventDefault();
      const to = goTo(r + by[0], c + by[1]);
      const presence = presenceAt(changesAt(place), 1, 0);
      if (event.shiftKey && canPaint && !isSame(to, place)) onPaint({ presence, cells: [to] });
      return;
    }
    if (event.key === "Home" || event.key === "End") {
      event.preventDefault();
      const end = event.key === "End";
      goTo(event.ctrlKey ? (end ? rows.length - 1 : 0) : r, end ? columns.length - 1 : 0);
      return;
    }
    if (!canPaint || event.ctrlKey) return;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    if (key === " ") onPaint({ presence: nextOf(changesAt(place)), cells: [place] });
    else if (key === "Enter") of.onOpen();
    else if (key in KEYS) onPaint({ presence: KEYS[key] ?? null, cells: [place] });
    else return;
    event.preventDefault();
  };

  /** What a cell shows while the stroke goes over it; null = what is stored. */
  const overlay = (place: CellPlace): TextureChanges | null =>
    stroke?.cells.some((one) => isSame(one, place)) ? WHOLE[stroke.presence ?? "clear"] : null;
  return {
    overlay,
    handlers: {
      onPointerDown,
      onPointerMove,
      onPointerUp,
      onPointerCancel: () => put(null),
      onClick,
      onKeyDown,
    },
  };
};

const WHOLE: { readonly [P in Presence | "clear"]: TextureChanges } = {
  rest: wholeSection("rest"),
  light: wholeSection("light"),
  play: wholeSection("play"),
  full: wholeSection("full"),
  clear: wholeSection(null),
};
