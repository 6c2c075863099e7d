import { Button } from "#client/ui/button.tsx";
import type { HeldList } from "../use-held-list.ts";

const words = ({ added }: Pick<HeldList<unknown>, "added">): string => {
  if (added === 0) return "Show the new order";
  return added === 1 ? "1 new detail" : `${added} new details`;
};

/** Says that others changed the list, and shows it on demand. Stands at the end, where it moves nothing. */
export const NewsBar = ({ list }: { readonly list: HeldList<unknown> }) => (
  <div aria-live="polite" className="no-print">
    {list.stale ? (
      <Button className="mt-3 w-full" onClick={list.refresh}>
        {words(list)}
      </Button>
    ) : null}
  </div>
);
