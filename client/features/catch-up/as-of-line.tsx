import type { CatchUpState } from "#client/store/catch-up-store.ts";
import { useBand, useBoardStore, useSaveFact } from "#client/store/hooks.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { momentWords } from "#shared/lib/moment-words.ts";

const unsentWords = (count: number): string =>
  count === 0
    ? ""
    : count === 1
      ? " 1 change of yours is not sent yet."
      : ` ${count} changes of yours are not sent yet.`;

/** How far what stands here is to be believed: when everything was fetched, and what this device knew before. */
export const AsOfLine = ({ state }: { readonly state: CatchUpState }) => {
  const { timeZone } = useBand();
  const store = useBoardStore();
  const asOf = useSaveFact((saved) => saved.asOf);
  const connected = useSaveFact(({ connection }) => connection === "connected");
  const unsent = useSaveFact((saved) => saved.unsent);
  const moment = connected ? "now" : asOf === null ? null : momentWords(asOf, store.now(), timeZone);
  const since = dayWords(dayOf(state.since, timeZone), { weekday: true });
  return (
    <div className="caption grid gap-1 pt-2">
      <p>
        {moment === null ? "" : `As of ${moment.replace(/ at /, ", ").replace(/^on /, "")}.`}
        {unsentWords(unsent)}
      </p>
      {state.broken ? (
        <p>
          What this device knew before cannot be read any more. It begins again with the board as it is today.
        </p>
      ) : state.first ? (
        <p>This device has followed the board for you since {since}. What changed before is not told.</p>
      ) : null}
      {state.lasting ? null : (
        <p>This browser keeps nothing between visits, so what you understand is forgotten with the page.</p>
      )}
    </div>
  );
};
