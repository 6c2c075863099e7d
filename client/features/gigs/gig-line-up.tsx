import { useAct } from "#client/pieces/use-act.ts";
import { useMissing } from "#client/pieces/use-missing.ts";
import { useAuthor, useChairs, usePeople } from "#client/store/hooks.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import type { Chair, Gig, Person } from "#shared/board/band.ts";
import { seatMeant } from "#shared/board/line-up.ts";
import { seatForGig } from "#shared/commands/seat-for-gig.ts";
import type { GigOutlook } from "#shared/selectors/gig-outlook.ts";
import { DepLink } from "./dep-link.tsx";

const USUAL = "usual";
const NOBODY = "nobody";

const Seat = ({ gig, chair }: { readonly gig: Gig; readonly chair: Chair }) => {
  const act = useAct();
  const people = usePeople();
  const usual = (chair.holder === null ? undefined : people.get(chair.holder)?.name) ?? "vacant";
  const tonight = gig.lineUp.get(chair.id);
  const value = tonight === undefined ? USUAL : (tonight ?? NOBODY);
  const options = [
    { value: USUAL, label: `usual: ${usual}` },
    { value: NOBODY, label: "nobody" },
    ...[...people.values()]
      .filter(({ id }) => id !== chair.holder || id === value)
      .map(({ id, name, dep }) => ({ value: id, label: dep ? `${name} (dep)` : name })),
  ];
  const seat = (next: string) =>
    act(
      seatForGig,
      { gig: gig.id, chair: chair.id, member: next === USUAL ? null : next === NOBODY ? "" : next },
      `${chair.name} that night: ${options.find((option) => option.value === next)?.label ?? next}`,
    );
  return (
    <Select
      hideLabel
      label={`${chair.name} that night`}
      value={value}
      options={options}
      onChange={seat}
      className="w-full laptop:w-72"
    />
  );
};

/** Who sits where that night. Another player's own record then counts; it may raise a song's score as well as lower it. */
export const GigLineUp = ({ gig, outlook }: { readonly gig: Gig; readonly outlook: GigOutlook }) => {
  const chairs = useChairs();
  const people = usePeople();
  const { role } = useAuthor();
  const looking = role === "guest";
  const missing = new Map(outlook.seats.map((seat) => [seat.chair.id, seat.uncovered]));
  const absent = new Set(useMissing(gig.date, gig).map(({ person }) => person));
  const changed = chairs.filter(({ id }) => gig.lineUp.has(id)).length;
  const nameOf = (chair: Chair): string => {
    const seat = seatMeant(chair, gig);
    return (seat ? people.get(seat)?.name : undefined) ?? "nobody";
  };
  const note = (chair: Chair): string => {
    const songs = missing.get(chair.id) ?? 0;
    return [
      absent.has(seatMeant(chair, gig) ?? "") ? `${nameOf(chair)} is away that day: seat somebody else` : "",
      songs === 0 ? "" : `nobody on it in ${songs === 1 ? "1 song" : `${songs} songs`}`,
    ]
      .filter((part) => part !== "")
      .join(" · ");
  };
  const depOn = (chair: Chair): Person | null => {
    const seat = seatMeant(chair, gig);
    const person = seat ? people.get(seat) : undefined;
    // Who sits on two chairs needs one link.
    const first = chairs.find((one) => seatMeant(one, gig) === seat);
    return role === "leader" && person?.dep === true && first === chair ? person : null;
  };
  return (
    <section aria-labelledby="line-up">
      <SectionHeading
        title={<span id="line-up">Line-up that night</span>}
        aside={changed === 0 ? "as usual" : changed === 1 ? "1 chair differs" : `${changed} chairs differ`}
      />
      {chairs.length === 0 ? (
        <p className="text-quiet">There are no chairs yet. Add them under People and chairs.</p>
      ) : null}
      <ul>
        {chairs.map((chair) => {
          const dep = depOn(chair);
          return (
            <li
              key={chair.id}
              className="flex flex-wrap items-center gap-x-4 border-b border-line pt-1.5 pb-4 laptop:pb-1.5"
            >
              <span className="min-w-0 flex-1 basis-40">
                {chair.name}
                {note(chair) === "" ? null : <span className="caption block text-accent">{note(chair)}</span>}
              </span>
              {looking ? (
                <span className="text-quiet">{nameOf(chair)}</span>
              ) : (
                <Seat gig={gig} chair={chair} />
              )}
              {dep === null ? null : <DepLink key={dep.id} gig={gig} dep={dep} />}
            </li>
          );
        })}
      </ul>
      <p className="caption mt-2">
        Whoever plays is counted by their own record. A chair left empty never raises a score.
      </p>
    </section>
  );
};
