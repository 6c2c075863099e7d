import { Button } from "#client/ui/button.tsx";
import { type FrozenOrder, useOrderNews } from "./use-frozen-order.ts";

export interface OrderLineProps {
  readonly order: FrozenOrder;
  /** All songs on the board, shown or not. */
  readonly of: number;
}

/** How many songs are shown, and quietly what happened to their order since. Its height never changes. */
export const OrderLine = ({ order, of }: OrderLineProps) => {
  const news = useOrderNews(order);
  const count = order.songs.length;
  const fresh = news.fresh === 1 ? "1 new song" : `${news.fresh} new songs`;
  return (
    <div className="flex min-h-12 items-center gap-x-4 dense:min-h-9">
      <p className="caption">
        {count === of ? `${count} ${count === 1 ? "song" : "songs"}` : `${count} of ${of} songs`}
      </p>
      <div role="status">
        {news.fresh > 0 ? (
          <Button tone="quiet" onClick={order.sortAgain}>
            {fresh}
          </Button>
        ) : null}
        {news.moved ? (
          <Button tone="quiet" onClick={order.sortAgain}>
            Order has changed: sort again
          </Button>
        ) : null}
      </div>
    </div>
  );
};
