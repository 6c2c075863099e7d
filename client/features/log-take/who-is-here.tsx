import { useNames } from "#client/pieces/use-names.ts";
import { useAways, useBand, useBoardStore, useChairs, usePeople, useRehearsal } from "#client/store/hooks.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Select } from "#client/ui/select.tsx";
import { awayOn } from "#shared/board/away-on.ts";
import { listed } from "#shared/readiness/names.ts";
import {
  attendanceWords,
  emptyChairs,
  expected,
  type WhoIsHere as Here,
  withPresence,
  withStandIn,
} from "#shared/selectors/seating.ts";

export interface WhoIsHereProps {
  readonly day: string;
  readonly here: Here;
  readonly onChange: (here: Here) => void;
}

const NOBODY = "";

/** Everybody of the band, there or not, and who sits in on chairs that would be empty. */
export const WhoIsHere = ({ day, here, onChange }: WhoIsHereProps) => {
  const store = useBoardStore();
  const { timeZone } = useBand();
  const rehearsal = useRehearsal(day);
  const board = { chairs: useChairs(), people: usePeople() };
  const names = useNames();
  const held = (member: string) =>
    board.chairs.filter(({ holder }) => holder === member).map(({ name }) => name);
  const away = awayOn({ aways: useAways(), people: board.people }, day);
  const free = [...board.people.values()].filter(({ id }) => !here.away.includes(id));
  return (
    <div className="pb-3">
      <ul>
        {expected(board).map((member) => (
          <li key={member} className="border-b border-line">
            <Checkbox
              size="room"
              className="py-1"
              label={names.member(member)}
              hint={
                attendanceWords(rehearsal?.attendance.get(member), store.now(), timeZone) ||
                (away.includes(member) ? "said they are away" : listed(held(member)))
              }
              checked={!here.away.includes(member)}
              onChange={(present) => onChange(withPresence(board, here, member, present))}
            />
          </li>
        ))}
      </ul>
      {emptyChairs(board, here).map(({ id, name }) => (
        <Select
          key={id}
          className="mt-3"
          label={`On ${name} instead`}
          value={here.standIns[id] ?? NOBODY}
          options={[
            { value: NOBODY, label: "nobody" },
            ...free.map((person) => ({
              value: person.id,
              label: person.dep ? `${person.name} (dep)` : person.name,
            })),
          ]}
          onChange={(member) => onChange(withStandIn(here, id, member === NOBODY ? null : member))}
        />
      ))}
    </div>
  );
};
