import { useGigs, useViewpoint } from "#client/store/hooks.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { Select } from "#client/ui/select.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { formatWhere } from "#shared/board/where.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { playedGigs, type TakeDraft, type TakeFault } from "#shared/selectors/take-draft.ts";

export interface TakeKindProps {
  readonly song: SongFile;
  readonly draft: TakeDraft;
  readonly change: (fields: Partial<TakeDraft>) => void;
  readonly fault: TakeFault | null;
}

const toggled = (ids: readonly string[], id: string, on: boolean): string[] =>
  on ? [...ids, id] : ids.filter((other) => other !== id);

/** A run, a drill, a gig or work alone, and what of the song it covered. */
export const TakeKind = ({ song, draft, change, fault }: TakeKindProps) => {
  const [{ today }] = useViewpoint();
  const gigs = playedGigs(useGigs(), today);
  const { kind } = draft;
  return (
    <div className="flex flex-col gap-3 pb-4">
      <Choice
        label="What was it"
        size="room"
        value={kind}
        options={[
          { value: "run", label: "run" },
          { value: "drill", label: "drill" },
          { value: "gig", label: "gig", disabled: gigs.length === 0 },
          { value: "solo", label: "solo" },
        ]}
        onChange={(next) =>
          change({ kind: next, scope: next === "drill" && draft.scope === "whole" ? "details" : draft.scope })
        }
      />
      {kind === "gig" && gigs.length > 0 ? (
        <Select
          label="Which gig"
          value={gigs.find(({ id }) => id === draft.gig)?.id ?? gigs[0]?.id ?? ""}
          options={gigs.map((gig) => ({
            value: gig.id,
            label: `${dayWords(gig.date, { today })}, ${gig.name || gig.place}`,
          }))}
          onChange={(gig) => change({ gig })}
        />
      ) : null}
      {kind === "drill" || kind === "solo" ? <TakeScope song={song} draft={draft} change={change} /> : null}
      {fault?.field === "scope" || fault?.field === "who" ? (
        <p className="text-accent">{fault.sentence}</p>
      ) : null}
    </div>
  );
};

const TakeScope = ({ song, draft, change }: Omit<TakeKindProps, "fault">) => {
  const places =
    draft.scope === "sections"
      ? song.sections.map(({ id }) => ({
          id,
          words: formatWhere({ from: { section: id } }, song.sections),
          hint: "",
        }))
      : song.cards
          .filter(({ weight }) => weight !== "polish")
          .map(({ id, text, where }) => ({ id, words: text, hint: formatWhere(where, song.sections) }));
  const chosen = draft.scope === "sections" ? draft.sections : draft.details;
  return (
    <>
      <Choice
        label="How much of it"
        size="room"
        value={draft.scope}
        options={[
          { value: "whole", label: "whole" },
          { value: "sections", label: "sections", disabled: song.sections.length === 0 },
          { value: "details", label: "details" },
        ]}
        onChange={(scope) => change({ scope })}
      />
      {draft.scope === "whole" ? null : (
        <ul>
          {places.map(({ id, words, hint }) => (
            <li key={id} className="border-b border-line">
              <Checkbox
                size="room"
                label={words || "a detail without words"}
                hint={hint}
                checked={chosen.includes(id)}
                onChange={(on) => {
                  const ids = toggled(chosen, id, on);
                  change(draft.scope === "sections" ? { sections: ids } : { details: ids });
                }}
              />
            </li>
          ))}
        </ul>
      )}
    </>
  );
};
