import type { KeyboardEvent, ReactNode } from "react";
import { songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { PlannedBlock } from "#shared/board/rehearsal.ts";
import { capital } from "#shared/readiness/names.ts";
import { blockWords, minutesWord } from "#shared/selectors/plan-words.ts";

export interface PlanRowProps {
  readonly file: SongFile;
  readonly block: PlannedBlock;
  /** When it begins; empty = over, or not known. */
  readonly when: string;
  /** At the far end: a figure. */
  readonly figure?: ReactNode;
  /** Quiet lines under what is done. */
  readonly children?: ReactNode;
  readonly controls?: ReactNode;
  readonly onKeyDown?: ((event: KeyboardEvent) => void) | undefined;
}

/** One song of a plan: when, which, what it gets, and why. */
export const PlanRow = ({ file, block, when, figure, children, controls, onKeyDown }: PlanRowProps) => {
  const href = useHref();
  return (
    <li
      className="break-inside-avoid border-b border-line py-2"
      data-block={file.song.id}
      onKeyDown={onKeyDown}
    >
      <div className="flex flex-wrap items-start gap-x-4 laptop:flex-nowrap">
        <span className="w-full shrink-0 text-small text-quiet tabular-nums laptop:w-24 laptop:pt-1.5">
          {when}
        </span>
        <div className="min-w-0 flex-1">
          <p>
            <a
              href={href(songLink(file.song.id))}
              className="inline-flex min-h-9 items-center font-semibold decoration-control underline-offset-4 hover:underline"
            >
              {file.song.title}
            </a>
          </p>
          <p>
            {capital(blockWords(file, block))}{" "}
            <span className="text-quiet">· {minutesWord(block.minutes)}</span>
          </p>
          {children}
        </div>
        {figure === undefined ? null : <div className="shrink-0 pt-1 text-right">{figure}</div>}
      </div>
      {controls === undefined ? null : (
        <div className="no-print flex flex-wrap items-center justify-between gap-x-2 laptop:pl-28">
          {controls}
        </div>
      )}
    </li>
  );
};
