import { useAuthor } from "#client/store/hooks.ts";
import { FEELS } from "#shared/board/take.ts";
import type { OpenTake } from "./use-take.ts";

const EXPLAINED = {
  clean: "no stop, nothing to mend",
  wobble: "got through it",
  stopped: "broke off",
} as const;

/** Stays within the thumb's reach: one tap logs the take. The sentence below says what it will log. */
export const ResultBar = ({ take }: { readonly take: OpenTake }) => {
  const { role } = useAuthor();
  if (role === "guest")
    return <p className="py-4 text-quiet">You are looking on; a joining link lets you log.</p>;
  const { fault, joins, words } = take;
  return (
    <section
      aria-label="How was it"
      data-thumb-bar
      className="no-print sticky bottom-[calc(4rem+env(safe-area-inset-bottom,0px))] z-10 -mx-4 mt-4 border-t border-control bg-ground px-4 pt-3 laptop:bottom-0 laptop:mx-0 laptop:px-0"
    >
      {joins === null ? null : <p className="pb-2 text-accent">{joins}</p>}
      <div className="grid grid-cols-3 gap-2">
        {FEELS.map((feel) => (
          <button
            key={feel}
            type="button"
            disabled={fault !== null}
            aria-describedby="what-it-logs"
            title={EXPLAINED[feel]}
            onClick={() => take.log(feel)}
            className={`h-16 rounded-edge border font-semibold disabled:border-dashed disabled:border-control disabled:bg-transparent disabled:text-quiet ${
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
      {/* As high as a toast, which covers this line and never the results. */}
      <p id="what-it-logs" className="flex min-h-[4.5rem] items-center py-1">
        {fault === null ? (
          <span className="text-quiet">{words}</span>
        ) : (
          <span role="alert" className="text-accent">
            {fault.sentence}
          </span>
        )}
      </p>
    </section>
  );
};
