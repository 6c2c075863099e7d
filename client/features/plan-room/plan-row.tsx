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
      <div className="grid grid-cols-[1fr_auto] gap-x-4 laptop:grid-cols-[6rem_1fr_auto]">
        <span className="text-small text-quiet tabular-nums laptop:pt-1.5">{when}</span>
        <div className="col-span-2 row-start-2 min-w-0 laptop:col-span-1 laptop:col-start-2 laptop:row-start-1">
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
            <span className="whitespace-nowrap text-quiet">· {minutesWord(block.minutes)}</span>
          </p>
          {children}
        </div>
        {figure === undefined ? null : (
          <div className="col-start-2 text-right laptop:col-start-3 laptop:pt-1">{figure}</div>
        )}
      </div>
      {controls === undefined ? null : (
        <div className="no-print flex flex-wrap items-center justify-between gap-x-2 laptop:pl-28">
          {controls}
        </div>
      )}
    </li>
  );
};
