import Check from "lucide-react/icons/check";
import { useInPlace } from "#client/pieces/use-in-place.ts";
import type { DepGigStore } from "#client/store/dep-gig.ts";
import { Button } from "#client/ui/button.tsx";
import type { DepDetail, DepSong } from "#shared/protocol/dep-api.ts";
import { listed } from "#shared/readiness/names.ts";
import { gotItState, type KeptAnswer, questionsShown } from "#shared/selectors/dep-view.ts";
import { AskForm } from "./ask-form.tsx";
import { DepQuestions, Refused, stateWords } from "./dep-questions.tsx";

export interface DepDetailRowProps {
  readonly detail: DepDetail;
  readonly song: DepSong;
  readonly kept: readonly KeptAnswer[];
  readonly store: DepGigStore;
}

/** Where, how much it matters, what to do, when it is right, with whom. */
const Words = ({ detail }: { readonly detail: DepDetail }) => (
  <>
    <p className="caption">
      <span className="text-ink">{detail.where}</span>
      {" · "}
      <span className={detail.weight === "must" ? "font-semibold text-ink" : undefined}>{detail.weight}</span>
      {detail.kind === "general" ? null : ` · ${detail.kind}`}
      {detail.shared.length === 0 ? null : ` · with ${listed(detail.shared)}`}
    </p>
    <p className={detail.weight === "must" ? "font-semibold" : undefined}>
      {detail.text || <span className="expression text-quiet">a detail without words</span>}
    </p>
    {detail.otherwise.map((text) => (
      <p key={text} className="border-l-2 border-accent pl-2">
        <span className="caption">or, not settled yet: </span>
        {text}
      </p>
    ))}
    {detail.right === "" ? null : <p className="text-quiet">→ {detail.right}</p>}
  </>
);

/** One detail of the dep's chair: read it, say "got it", or ask. */
export const DepDetailRow = ({ detail, song, kept, store }: DepDetailRowProps) => {
  const { root, editing, edit, done } = useInPlace<HTMLLIElement>("[data-ask]");
  const got = gotItState(detail, kept);
  const isGot = got.state === "saved" || got.state === "on this phone";
  const own = kept.find(({ answer }) => answer.kind === "got it" && answer.card === detail.id);
  return (
    <li ref={root} className="border-b border-line py-3">
      <Words detail={detail} />
      <div className="mt-2 flex flex-wrap items-center gap-x-3 gap-y-1">
        <Button
          tone={isGot ? "main" : "plain"}
          aria-pressed={isGot}
          aria-label={`Got it: ${detail.text}`}
          {...(isGot ? { icon: Check } : {})}
          onClick={() => {
            if (!isGot) store.gotIt(detail.id);
          }}
        >
          Got it
        </Button>
        {editing ? null : (
          <Button data-ask aria-label={`Ask about: ${detail.text}`} onClick={edit}>
            Ask
          </Button>
        )}
        {isGot && got.state !== null ? <span className="caption">{stateWords(got.state)}</span> : null}
      </div>
      {got.state === "refused" && own !== undefined ? (
        <Refused id={own.answer.id} sentence={got.sentence} store={store} />
      ) : null}
      <DepQuestions questions={questionsShown(song, detail.id, kept)} store={store} />
      {editing ? (
        <AskForm
          about={detail.text}
          onAsk={(text) => {
            store.ask(song.id, detail.id, text);
            done();
          }}
          onLeave={done}
        />
      ) : null}
    </li>
  );
};
