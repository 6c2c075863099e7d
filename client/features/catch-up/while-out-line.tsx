import { whileOutLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import type { CatchUpStore } from "#client/store/catch-up-store.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import { useCatchUp } from "./use-catch-up.ts";

/** One line of fixed height: how much changed, with the way there. */
export const WhileOutLine = ({ catchUp }: { readonly catchUp: CatchUpStore | null }) => {
  const state = useCatchUp(catchUp);
  const href = useHref();
  const count = state?.digest?.items.length ?? null;
  return (
    <p className="no-print flex h-12 items-center">
      {count === null ? null : (
        <TextLink
          standing
          href={href(whileOutLink())}
          className={count === 0 ? "text-quiet" : "font-semibold"}
        >
          {count === 0
            ? "While you were out: nothing new"
            : `While you were out: ${count} ${count === 1 ? "change" : "changes"}`}
        </TextLink>
      )}
    </p>
  );
};
