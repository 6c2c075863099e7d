import { memo } from "react";
import { Partner } from "#client/pieces/detail-line.tsx";
import { StatusControl } from "#client/pieces/status-control.tsx";
import { useNames } from "#client/pieces/use-names.ts";
import { classNames } from "#client/ui/class-names.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { formatWhere } from "#shared/board/where.ts";
import { type DetailLine, type Standing, sameDetailLine } from "#shared/selectors/part-view.ts";
import { shortReason } from "#shared/selectors/short-reason.ts";

export interface RoomDetailProps {
  readonly line: DetailLine;
  readonly song: Pick<SongFile, "sections">;
  /** The chair, where the player has several. */
  readonly chair?: string | undefined;
  /** Flagged in the take that is being put together. */
  readonly slipped: boolean;
  /** Absent for those who only look on. */
  readonly onSlip?: ((line: DetailLine) => void) | undefined;
}

const sameProps = (a: RoomDetailProps, b: RoomDetailProps): boolean =>
  sameDetailLine(a.line, b.line) &&
  a.song.sections === b.song.sections &&
  a.chair === b.chair &&
  a.slipped === b.slipped &&
  a.onSlip === b.onSlip;

/**
 * One of the player's details on the stand: what to do, with whom, one tap for a step up, one for a slip. Every line of
 * it keeps its height whatever happens, so that nothing below moves.
 */
export const RoomDetail = memo(({ line, song, chair, slipped, onSlip }: RoomDetailProps) => {
  const names = useNames();
  const { card, standings } = line;
  const [mine, ...partners] = standings;
  const must = card.weight === "must";
  const facts = [formatWhere(card.where, song.sections), card.weight, chair ?? ""];
  return (
    <div className="border-b border-line py-2" data-card={card.id}>
      <p className="text-quiet">{facts.filter((fact) => fact !== "").join(" · ")}</p>
      <p className={must ? "font-semibold" : undefined}>{card.text || "a detail without words"}</p>
      {card.right === "" ? null : <p className="text-quiet">→ {card.right}</p>}
      {partners.length === 0 ? null : (
        <p className="flex flex-wrap gap-x-3 text-quiet">
          <span>with</span>
          {partners.map((standing) => (
            <Partner key={standing.chair} standing={standing} names={names} />
          ))}
        </p>
      )}
      {mine === undefined ? null : (
        <RoomActions
          standing={mine}
          card={card}
          song={song}
          about={card.text}
          slipped={slipped}
          onSlip={onSlip === undefined ? undefined : () => onSlip(line)}
        />
      )}
    </div>
  );
}, sameProps);
RoomDetail.displayName = "RoomDetail";

/** The tapping end of a row, on the side of the thumb: the status outermost, the slip beside it, the reason last. */
export const RoomActions = (props: {
  readonly standing: Standing;
  readonly card: Card | null;
  readonly song: Pick<SongFile, "sections">;
  readonly about: string;
  readonly slipped: boolean;
  readonly onSlip?: (() => void) | undefined;
}) => (
  <div className="mt-1 flex flex-row-reverse flex-wrap items-center gap-2 lefty:flex-row">
    <div data-room-stop>
      <StatusControl standing={props.standing} card={props.card} song={props.song} size="room" hideReason />
    </div>
    {props.onSlip === undefined ? null : (
      <button
        type="button"
        data-slip
        aria-pressed={props.slipped}
        onClick={props.onSlip}
        className={classNames(
          "min-h-14 min-w-20 rounded-edge border px-3",
          props.slipped
            ? "border-slip bg-slip font-semibold text-ground"
            : "border-control hover:border-slip",
        )}
      >
        Slip<span className="sr-only">: {props.about || "a detail without words"}</span>
      </button>
    )}
    <p className="min-h-[1.625rem] basis-36 grow text-quiet">{shortReason(props.standing)}</p>
  </div>
);
