import { memo } from "react";
import { usePeople } from "#client/store/hooks.ts";
import type { Present } from "#client/store/presence.ts";
import { usePresentAt } from "#client/store/presence-hooks.ts";
import { classNames } from "#client/ui/class-names.ts";
import { initialsOf } from "#shared/selectors/initials.ts";

/** More people than this in one cell are counted. */
const SHOWN = 2;

const Initials = ({
  present,
  className,
}: {
  readonly present: readonly Present[];
  readonly className: string;
}) => {
  const people = usePeople();
  const nameOf = ({ member }: Present): string => people.get(member ?? "")?.name ?? "somebody unnamed";
  const names = present.map(nameOf).join(", ");
  const beyond = present.length - SHOWN;
  return (
    <span title={`${names} here`} className={classNames("flex gap-0.5", className)}>
      <span className="sr-only">{`${names} here`}</span>
      {present.slice(0, SHOWN).map((one) => (
        <span
          key={one.member ?? one.device}
          aria-hidden="true"
          className="border border-control bg-ground px-0.5 text-small leading-4 text-ink"
        >
          {initialsOf(people.get(one.member ?? "")?.name)}
        </span>
      ))}
      {beyond > 0 ? (
        <span aria-hidden="true" className="bg-ground text-small leading-4">
          +{beyond}
        </span>
      ) : null}
    </span>
  );
};

/** Initials of the other people who are in one part now. Follows presence alone. */
export const PeopleHere = memo(
  (props: { readonly song: string; readonly chair: string; readonly className: string }) => {
    const present = usePresentAt(props.song, props.chair);
    return present.length === 0 ? null : <Initials present={present} className={props.className} />;
  },
);
PeopleHere.displayName = "PeopleHere";
