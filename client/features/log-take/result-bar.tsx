import ArrowRight from "lucide-react/icons/arrow-right";
import { roomLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import type { Song } from "#shared/board/song.ts";
import { FEELS } from "#shared/board/take.ts";
import type { OpenTake } from "./use-take.ts";

const EXPLAINED = {
  clean: "no stop, nothing to mend",
  wobble: "got through it",
  stopped: "broke off",
} as const;

export interface ResultBarProps {
  readonly take: OpenTake;
  /** The song that comes next; null = none. */
  readonly next: Song | null;
}

/** Stays within the thumb's reach: one tap logs the take. The sentence below says what it will log. */
export const ResultBar = ({ take, next }: ResultBarProps) => {
  const { role } = useAuthor();
  const href = useHref();
  if (role === "guest")
    return <p className="py-4 text-quiet">You are looking on; a joining link lets you log.</p>;
  const { fault, joins, words } = take;
  return (
    <section
      aria-label="How was it"
      data-thumb-bar
      className="no-print sticky bottom-[calc(4rem+env(safe-area-inset-bottom,0px))] z-10 -mx-4 mt-4 border-t border-control bg-ground px-4 pt-3 laptop:bottom-0 laptop:mx-0 laptop:px-0"
    >
      <div className="flex flex-col gap-2 short:flex-row-reverse short:lefty:flex-row">
        {next === null ? null : (
          <a
            data-room-stop
            href={href(roomLink(next.id))}
            className="flex min-h-14 items-center justify-end gap-2 rounded-edge border border-control px-3 hover:border-ink short:min-h-12 lefty:flex-row-reverse"
          >
            <span className="min-w-0 truncate short:sr-only">Next: {next.title}</span>
            <ArrowRight aria-hidden="true" size={22} strokeWidth={1.75} />
          </a>
        )}
        <div className="grid min-w-0 grid-cols-3 gap-2 short:flex-1">
          {FEELS.map((feel) => (
            <button
              key={feel}
              type="button"
              data-room-stop
              disabled={fault !== null}
              aria-describedby="what-it-logs"
              title={EXPLAINED[feel]}
              onClick={() => take.log(feel)}
              className={`h-16 rounded-edge border font-semibold short:h-12 disabled:border-dashed disabled:border-control disabled:bg-transparent disabled:text-quiet ${
                feel === "clean"
                  ? "border-ink bg-ink text-ground hover:border-quiet hover:bg-quiet"
                  : feel === "stopped"
                    ? "border-slip text-slip hover:bg-slip hover:text-ground"
                    : "border-control hover:border-ink"
              }`}
            >
              {feel}
            </button>
          ))}
        </div>
      </div>
      {/*
        As high as a toast, which covers these lines and never the results; and no news makes more than three of them, or the
        results would move under a thumb. The folds above say all of it.
      */}
      <p
        id="what-it-logs"
        className="flex min-h-[5.875rem] items-start py-2 short:min-h-[2.125rem] short:py-1"
      >
        {fault === null ? (
          <span
            className={`line-clamp-3 short:line-clamp-1 ${joins === null ? "text-quiet" : "text-accent"}`}
          >
            {joins ?? words}
          </span>
        ) : (
          <span role="alert" className="text-accent">
            {fault.sentence}
          </span>
        )}
      </p>
    </section>
  );
};
