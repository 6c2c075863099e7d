import { useEffect, useState } from "react";
import { WhoAreYou } from "#client/pieces/who-are-you.tsx";
import type { CatchUpState, CatchUpStore } from "#client/store/catch-up-store.ts";
import { useAuthor, useBand, useBoardStore, usePeople } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { useToast } from "#client/ui/toast.tsx";
import { momentWords } from "#shared/lib/moment-words.ts";
import { type Digest, foldItems } from "#shared/selectors/catch-up/digest.ts";
import { countsSentence } from "#shared/selectors/catch-up/group-words.ts";
import type { Item } from "#shared/selectors/catch-up/item.ts";
import { AsOfLine } from "./as-of-line.tsx";
import { MostWorth } from "./most-worth.tsx";
import { NewsGroup } from "./news-group.tsx";
import { useCatchUp } from "./use-catch-up.ts";

/** What changed for this device's member since they last looked, and one thing to do about it. */
export const WhileOutScreen = ({ catchUp }: { readonly catchUp: CatchUpStore | null }) => {
  const { member } = useAuthor();
  const person = usePeople().get(member ?? "");
  const state = useCatchUp(catchUp);
  useStand("elsewhere");
  return (
    <div className="max-w-3xl">
      <PageHeading title="While you were out" above={person?.name} />
      {person === undefined ? (
        <WhoAreYou>what changes for you stands here.</WhoAreYou>
      ) : catchUp === null || state === null || state.digest === null ? (
        <p className="py-4 text-quiet">Worked out in a moment</p>
      ) : (
        <News key={person.id} member={person.id} catchUp={catchUp} state={state} digest={state.digest} />
      )}
    </div>
  );
};

interface NewsProps {
  readonly member: string;
  readonly catchUp: CatchUpStore;
  readonly state: CatchUpState;
  readonly digest: Digest;
}

const isSame = (a: Item) => (b: Item) => a.key === b.key && a.version === b.version;

const News = ({ member, catchUp, state, digest }: NewsProps) => {
  // What is read holds still: what is understood stays in its place, and what comes meanwhile waits for a tap.
  const [held, setHeld] = useState(digest.items);
  const toast = useToast();
  const { timeZone } = useBand();
  const store = useBoardStore();
  const fresh = digest.items.filter((item) => !held.some(isSame(item)));
  useEffect(() => {
    if (held.length === 0 && digest.items.length > 0) setHeld(digest.items);
  }, [held, digest]);
  const isOpen = (item: Item): boolean => digest.items.some(isSame(item));
  const understand = (items: readonly Item[], label: string): void => {
    const open = items.filter(isOpen);
    if (open.length === 0) return;
    const undo = catchUp.understand(open.flatMap(({ covers }) => covers));
    toast({ text: label, undo });
  };
  const open = held.filter(isOpen);
  const last = momentWords(state.since, store.now(), timeZone);
  return (
    <>
      <p className="text-title">
        {open.length > 0
          ? `Since you were away: ${countsSentence(open)}.`
          : `Nothing new since ${last.replace(/^on /, "")}.`}
      </p>
      <AsOfLine state={state} />
      <MostWorth member={member} />
      {foldItems(held).groups.map((group) => (
        <NewsGroup key={group.group} group={group} isOpen={isOpen} onUnderstand={understand} />
      ))}
      {fresh.length === 0 ? null : (
        <Button className="mt-4 w-full" onClick={() => setHeld(digest.items)}>
          {fresh.length === 1
            ? "1 more change has come: show it"
            : `${fresh.length} more changes have come: show them`}
        </Button>
      )}
      {open.length < 2 ? null : (
        <Button
          tone="main"
          size="room"
          className="mt-6 w-full"
          onClick={() => understand(held, `All ${open.length} understood`)}
        >
          I have understood all {open.length}
        </Button>
      )}
      <p className="caption mt-4">
        What you have understood is kept on this device only. Another device of yours shows it once more.
      </p>
    </>
  );
};
