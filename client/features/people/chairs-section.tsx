import Pencil from "lucide-react/icons/pencil";
import Plus from "lucide-react/icons/plus";
import Trash2 from "lucide-react/icons/trash-2";
import { useState } from "react";
import { StepButtons } from "#client/pieces/step-buttons.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useSteps } from "#client/pieces/use-steps.ts";
import { useAuthor, useChairs, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { VisuallyHidden } from "#client/ui/visually-hidden.tsx";
import type { Chair } from "#shared/board/band.ts";
import { giveChair, moveChair } from "#shared/commands/add-chair.ts";
import { removeChair } from "#shared/commands/remove-record.ts";
import { ChairForm } from "./chair-form.tsx";
import { PickLineUp } from "./pick-line-up.tsx";

const Holder = ({ chair }: { readonly chair: Chair }) => {
  const act = useAct();
  const people = usePeople();
  const looking = useAuthor().role === "guest";
  const holder = chair.holder !== null && people.has(chair.holder) ? chair.holder : "";
  const options = [
    { value: "", label: "nobody" },
    ...[...people.values()].map(({ id, name, dep }) => ({ value: id, label: dep ? `${name} (dep)` : name })),
  ];
  if (looking) return <span className="text-quiet">{people.get(holder)?.name ?? "nobody"}</span>;
  return (
    <Select
      hideLabel
      label={`Who holds ${chair.name}`}
      value={holder}
      options={options}
      onChange={(member) =>
        act(
          giveChair,
          { chair: chair.id, holder: member },
          `${chair.name}: ${people.get(member)?.name ?? "nobody"}`,
        )
      }
      className="w-full laptop:w-64"
    />
  );
};

interface ChairToolsProps {
  readonly chair: Chair;
  readonly first: boolean;
  readonly last: boolean;
  readonly onMove: (by: -1 | 1) => void;
  readonly onEdit: () => void;
}

const ChairTools = ({ chair, onEdit, ...steps }: ChairToolsProps) => {
  const act = useAct();
  return (
    <div className="flex shrink-0 justify-end">
      <StepButtons name={chair.name} {...steps} />
      <IconButton icon={Pencil} label={`Change ${chair.name}`} onClick={onEdit} />
      <IconButton
        icon={Trash2}
        label={`Remove ${chair.name}`}
        onClick={() => act(removeChair, { id: chair.id }, `Removed the chair ${chair.name}`)}
      />
    </div>
  );
};

/** The columns of the board, in order, each with who holds it. */
export const ChairsSection = () => {
  const act = useAct();
  const chairs = useChairs();
  const looking = useAuthor().role === "guest";
  const [editing, setEditing] = useState<Chair | "new" | null>(null);
  const steps = useSteps({
    items: chairs,
    onMove: (chair, index, name) =>
      act(moveChair, { chair, index }, `Moved the chair ${name}`, { quiet: true }),
  });
  return (
    <section aria-labelledby="chairs">
      <SectionHeading title={<span id="chairs">Chairs</span>} aside="the columns of the board" />
      {chairs.length === 0 ? (
        <p className="pb-3 text-quiet">
          A chair is an instrument or a voice that somebody holds. Start from a line-up, or add chairs one by
          one.
        </p>
      ) : null}
      {chairs.length === 0 && !looking ? <PickLineUp /> : null}
      <ol
        ref={(element) => {
          steps.list.current = element;
        }}
      >
        {chairs.map((chair, place) => (
          <li
            key={chair.id}
            onKeyDown={looking ? undefined : steps.onKeyDown(chair.id)}
            className="flex flex-wrap items-center gap-x-4 border-b border-line pt-1.5 pb-4 laptop:pb-1.5"
          >
            <span className="min-w-0 flex-1 basis-28">
              {chair.name}
              <span className="caption block">
                {chair.short} · {chair.instrument}
              </span>
            </span>
            <div className="order-last w-full laptop:order-none laptop:w-auto">
              <Holder chair={chair} />
            </div>
            {looking ? null : (
              <ChairTools
                chair={chair}
                first={place === 0}
                last={place === chairs.length - 1}
                onMove={(by) => steps.move(chair.id, by)}
                onEdit={() => setEditing(chair)}
              />
            )}
          </li>
        ))}
      </ol>
      <VisuallyHidden>
        <span role="status">{steps.said}</span>
      </VisuallyHidden>
      {looking ? null : (
        <Button icon={Plus} className="mt-4" onClick={() => setEditing("new")}>
          Add a chair
        </Button>
      )}
      {editing === null ? null : (
        <ChairForm chair={editing === "new" ? null : editing} onClose={() => setEditing(null)} />
      )}
    </section>
  );
};
