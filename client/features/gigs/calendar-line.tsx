import CalendarArrowDown from "lucide-react/icons/calendar-arrow-down";
import { useState } from "react";
import { useBand, useGigs, useRehearsals, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { eveningsAhead } from "#shared/selectors/evenings.ts";
import { useSaveDates } from "./use-save-dates.ts";

/** Everything ahead as one file for a calendar; nothing while nothing is ahead. */
export const CalendarLine = () => {
  const { name } = useBand();
  const [{ today }] = useViewpoint();
  const gigs = useGigs().filter(({ date }) => date >= today);
  const rehearsals = eveningsAhead({ rehearsals: useRehearsals() }, today);
  const saveDates = useSaveDates();
  const [said, setSaid] = useState("");
  if (gigs.length + rehearsals.length === 0) return null;
  const save = () => {
    saveDates({ gigs, rehearsals }, { of: name, what: "dates", day: today });
    setSaid("The file is among your downloads. Open it, and your calendar takes the dates.");
  };
  return (
    <div className="mt-8 border-t border-line pt-4">
      <div className="flex flex-wrap items-center gap-3">
        <Button icon={CalendarArrowDown} onClick={save}>
          Calendar file
        </Button>
        <span role="status" className="caption">
          {said}
        </span>
      </div>
      <p className="caption mt-2">
        Holds: every gig and rehearsal ahead, with place, times, minutes and the titles that are called. Does
        not hold: who is away, whom to ring, marks and remarks. When a date changes, save the file again, and
        the new entry takes the place of the old; what is called off is taken out by hand.
      </p>
    </div>
  );
};
