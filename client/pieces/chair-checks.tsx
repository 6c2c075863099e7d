import { useChairs, usePeople } from "#client/store/hooks.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import type { Chair, Person } from "#shared/board/band.ts";

export interface ChairChecksProps {
  /** Chair ids that are ticked. */
  readonly value: ReadonlySet<string>;
  readonly onChange: (chairs: ReadonlySet<string>) => void;
  /** Whose chairs these are; null = somebody new. */
  readonly person: string | null;
}

const hint = (chair: Chair, people: ReadonlyMap<string, Person>, person: string | null): string => {
  const holder = chair.holder === null ? undefined : people.get(chair.holder);
  if (holder === undefined) return "vacant";
  return holder.id === person ? "" : `held by ${holder.name}, who would leave it`;
};

/** Which chairs somebody holds; several are fine. */
export const ChairChecks = ({ value, onChange, person }: ChairChecksProps) => {
  const chairs = useChairs();
  const people = usePeople();
  if (chairs.length === 0) return null;
  return (
    <fieldset>
      <legend className="caption">Chairs, as many as you like</legend>
      {chairs.map((chair) => (
        <Checkbox
          key={chair.id}
          label={chair.name}
          hint={hint(chair, people, person)}
          checked={value.has(chair.id)}
          onChange={(ticked) =>
            onChange(new Set(ticked ? [...value, chair.id] : [...value].filter((id) => id !== chair.id)))
          }
        />
      ))}
    </fieldset>
  );
};
