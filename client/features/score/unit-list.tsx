import { useMemo } from "react";
import { partLink, songLink, takeLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Names } from "#shared/readiness/names.ts";
import { pointsOf } from "#shared/selectors/points.ts";
import { type EventLine, type PartLines, scoreLines, type UnitLine } from "#shared/selectors/score-lines.ts";

/** Exact points with one decimal: a single detail in a big band is worth less than one. */
const fine = (share: number): string => (share * 100).toFixed(1);

const Event = ({ event, song }: { readonly event: EventLine; readonly song: string }) => {
  const href = useHref();
  return (
    <li>
      <TextLink
        standing
        href={href(takeLink(song, event.take))}
        className={event.outcome === "slip" ? "text-slip" : undefined}
      >
        {event.words}
      </TextLink>
    </li>
  );
};

const unitStatus = (unit: UnitLine): string => {
  const marks = [
    unit.status,
    unit.slipped ? "slipped last time" : "",
    unit.waiting > 0 ? "held back by a partner" : "",
  ];
  return marks.filter((mark) => mark !== "").join(", ");
};

const Unit = ({
  unit,
  song,
  chair,
}: {
  readonly unit: UnitLine;
  readonly song: string;
  readonly chair: string | null;
}) => {
  const href = useHref();
  const status = unitStatus(unit);
  return (
    <li className="border-b border-line py-2 last:border-0">
      <div className="flex items-start gap-3">
        <div className="min-w-0 flex-1">
          <TextLink
            standing
            href={href(chair === null ? songLink(song) : partLink(song, chair, unit.card?.id))}
          >
            {unit.title}
          </TextLink>
          <span className="caption block">
            {unit.card === null ? "" : `${unit.card.weight}, `}
            {status === "" ? "" : `${status}, `}
            at {pointsOf(unit.r)} %
          </span>
        </div>
        <span className="shrink-0 text-right">
          {fine(unit.contribution)}
          <span className="caption block">of {fine(unit.share)}</span>
        </span>
      </div>
      {unit.events.length === 0 ? null : (
        <ul className="mt-1 text-small text-quiet">
          {unit.events.map((event) => (
            <Event key={event.take} event={event} song={song} />
          ))}
          {unit.moreEvents > 0 ? <li>and {unit.moreEvents} before</li> : null}
        </ul>
      )}
    </li>
  );
};

const partName = ({ chair, member }: PartLines, names: Names): string => {
  if (chair === null) return "The band together";
  return `${names.chair(chair)}: ${member === null ? "nobody" : names.member(member)}`;
};

const Part = ({ part, view }: { readonly part: PartLines; readonly view: SongView }) => (
  <Accordion
    summary={
      <span className="flex items-baseline gap-3">
        <span className="min-w-0 flex-1">{partName(part, view.names)}</span>
        <span className="shrink-0">
          {part.points} <span className="text-quiet">of {part.ofPoints}</span>
        </span>
      </span>
    }
  >
    <ul className="pb-3 pl-7">
      {part.units.map((unit) => (
        <Unit key={unit.key} unit={unit} song={view.file.song.id} chair={part.chair} />
      ))}
    </ul>
  </Accordion>
);

/** Everything the night's score is made of, part by part, with the takes behind it; what loses most first. */
export const UnitList = ({ view }: { readonly view: SongView }) => {
  const parts = useMemo(() => scoreLines(view.file, view.night), [view.file, view.night]);
  return (
    <div>
      <p className="caption mb-1">
        Points given of points possible; together they make the score on the night.
      </p>
      {parts.map((part) => (
        <Part key={part.chair ?? "band"} part={part} view={view} />
      ))}
    </div>
  );
};
