import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useDraft } from "#client/pieces/use-draft.ts";
import { useInPlace } from "#client/pieces/use-in-place.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextArea } from "#client/ui/text-field.tsx";
import type { Gig } from "#shared/board/band.ts";
import { reviseGig } from "#shared/commands/plan-gig.ts";

/** What the band wants to remember of the night, beside its songs. */
export const NightNote = ({ gig }: { readonly gig: Gig }) => {
  const act = useAct();
  const canChange = useAuthor().role !== "guest";
  const { root, editing, edit, done } = useInPlace<HTMLElement>("button");
  const [typed, setTyped] = useDraft(`night.${gig.id}`);
  const leave = () => {
    setTyped("");
    done();
  };
  const save = () => {
    if (act(reviseGig, { gig: gig.id, note: typed.trim() }, "Note of the night")) leave();
  };
  if (!canChange && gig.note === "") return null;
  return (
    <section ref={root} aria-labelledby="night-note">
      <SectionHeading title={<span id="night-note">Note of the night</span>} />
      {editing ? (
        <InPlaceForm label="Note of the night" onSave={save} onLeave={leave}>
          <TextArea
            label="What to remember"
            hint="The room, the sound, what the host said. Everybody with the board reads it; deps do not."
            maxLength={4000}
            value={typed}
            onChange={setTyped}
          />
        </InPlaceForm>
      ) : (
        <>
          {gig.note === "" ? null : <p className="whitespace-pre-line break-words py-2">{gig.note}</p>}
          {canChange ? (
            <Button
              className="mt-3 no-print"
              onClick={() => {
                if (typed === "") setTyped(gig.note);
                edit();
              }}
            >
              {gig.note !== "" ? "Change the note" : typed === "" ? "Write a note" : "Go on with the note"}
            </Button>
          ) : null}
        </>
      )}
    </section>
  );
};
