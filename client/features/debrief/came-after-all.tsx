import { type Step, step, useActTogether } from "#client/pieces/use-act.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useAways } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import type { Gig } from "#shared/board/band.ts";
import { sayAway, withdrawAway } from "#shared/commands/say-who-is-here.ts";
import { daysBeside } from "#shared/selectors/away-days.ts";

/** Who had said that they could not come: they count for nothing that is logged here unless they came after all. */
export const CameAfterAll = ({ gig }: { readonly gig: Gig }) => {
  const act = useActTogether();
  const names = useNames();
  const aways = useAways();
  const { role, member } = useAuthor();
  const came = (person: string): void => {
    const steps = aways
      .filter((away) => away.person === person && away.from <= gig.date && gig.date <= away.to)
      .flatMap((away): Step[] => [
        step(withdrawAway, { away: away.id }),
        ...daysBeside(away, gig.date).map((days) => step(sayAway, { person, ...days })),
      ]);
    act(steps, `${names.member(person)} was there`);
  };
  if (gig.away.length === 0) return null;
  return (
    <ul className="pb-2">
      {gig.away.map((person) => (
        <li key={person} className="flex flex-wrap items-center gap-x-4">
          <span>Away that day: {names.member(person)}. Nothing is logged for them.</span>
          {role === "leader" || member === person ? (
            <Button tone="quiet" onClick={() => came(person)}>
              Was there after all<span className="sr-only">: {names.member(person)}</span>
            </Button>
          ) : null}
        </li>
      ))}
    </ul>
  );
};
