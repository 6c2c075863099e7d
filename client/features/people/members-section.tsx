import Pencil from "lucide-react/icons/pencil";
import Plus from "lucide-react/icons/plus";
import Trash2 from "lucide-react/icons/trash-2";
import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor, useChairs, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Person } from "#shared/board/band.ts";
import { removePerson } from "#shared/commands/remove-record.ts";
import { PersonForm } from "./person-form.tsx";

/** Members first, deps after them; both in the order they came. */
const inOrder = (people: ReadonlyMap<string, Person>): readonly Person[] => {
  const all = [...people.values()];
  return [...all.filter(({ dep }) => !dep), ...all.filter(({ dep }) => dep)];
};

/** Everybody who plays, with the chairs they hold. */
export const MembersSection = () => {
  const act = useAct();
  const people = usePeople();
  const chairs = useChairs();
  const { role, member } = useAuthor();
  const [editing, setEditing] = useState<Person | "new" | null>(null);
  const looking = role === "guest";
  const notes = ({ id, dep }: Person): string => {
    const held = chairs.filter(({ holder }) => holder === id).map(({ name }) => name);
    const words = held.length > 0 ? held.join(", ") : dep ? "" : "no chair";
    return [dep ? "dep" : "", words, id === member ? "this device" : ""]
      .filter((part) => part !== "")
      .join(" · ");
  };
  return (
    <section aria-labelledby="members">
      <SectionHeading title={<span id="members">Members and deps</span>} aside={people.size} />
      {people.size === 0 ? (
        <p className="pb-3 text-quiet">
          Nobody here yet. Add the others yourself, or send them a joining link: each picks or adds their own
          name.
        </p>
      ) : null}
      <ul>
        {inOrder(people).map((person) => (
          <ListRow
            key={person.id}
            note={notes(person)}
            trail={
              looking ? null : (
                <span className="flex">
                  <IconButton
                    icon={Pencil}
                    label={`Change ${person.name}`}
                    onClick={() => setEditing(person)}
                  />
                  <IconButton
                    icon={Trash2}
                    label={`Remove ${person.name}`}
                    onClick={() => act(removePerson, { id: person.id }, `Removed ${person.name}`)}
                  />
                </span>
              )
            }
          >
            {person.name}
          </ListRow>
        ))}
      </ul>
      {looking ? null : (
        <Button icon={Plus} className="mt-4" onClick={() => setEditing("new")}>
          Add somebody
        </Button>
      )}
      {editing === null ? null : (
        <PersonForm person={editing === "new" ? null : editing} onClose={() => setEditing(null)} />
      )}
    </section>
  );
};
