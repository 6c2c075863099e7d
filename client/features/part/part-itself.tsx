import { useChangeWords } from "#client/pieces/detail/detail-history.tsx";
import { StatusControl } from "#client/pieces/status-control.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { declareNothingSpecial } from "#shared/commands/cast-part.ts";
import { changesOf, changeWords } from "#shared/selectors/detail-changes.ts";
import { markRefusal } from "#shared/selectors/marking.ts";
import type { Standing } from "#shared/selectors/part-view.ts";
import type { OpenPart } from "./use-part.ts";

/** The part as a whole: can it be played through, whatever its details. */
export const PartItself = ({ view, part, itself }: OpenPart & { readonly itself: Standing }) => {
  const words = useChangeWords();
  const last = changesOf(view.file, itself.statusId).find(({ member }) => member === itself.member);
  return (
    <section aria-labelledby="part-itself" className="border-b border-line py-3">
      <h2 id="part-itself" className="font-semibold">
        The part itself
      </h2>
      <p className="caption mb-2">Through from start to end, apart from its details.</p>
      <StatusControl
        standing={itself}
        card={null}
        song={view.file}
        note={last ? changeWords(last, words) : undefined}
      />
      <NothingSpecial view={view} part={part} itself={itself} />
    </section>
  );
};

/** A part without musts is open until its player says that there is nothing to note. */
const NothingSpecial = ({ view, part, itself }: OpenPart & { readonly itself: Standing }) => {
  const act = useAct();
  const author = useAuthor();
  const { member, casting, chair } = part;
  const musts = part.details.some(({ card }) => card.weight === "must");
  if (musts || member === null) return null;
  const declared = casting.nothingSpecial === member;
  const mayMark = markRefusal(author, itself, view.names) === null;
  const declare = (who: string, words: string) =>
    act(
      declareNothingSpecial,
      { song: view.file.song.id, chair: chair.id, member: who },
      `${chair.name}: ${words}`,
    );
  return (
    <div className="mt-3 flex flex-wrap items-center gap-x-4 gap-y-1">
      <p className="caption">
        {declared
          ? `${view.names.member(member)} says: nothing special here.`
          : "No must is written down. Is there none?"}
      </p>
      {!mayMark ? null : declared ? (
        <Button tone="quiet" onClick={() => declare("", "nothing special taken back")}>
          Take that back
        </Button>
      ) : (
        <Button onClick={() => declare(member, "nothing special")}>Nothing special here</Button>
      )}
    </div>
  );
};
