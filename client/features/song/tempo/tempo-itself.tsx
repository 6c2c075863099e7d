import { dayText } from "#client/pieces/day-text.ts";
import { takeLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useBand, useGigs, useViewpoint } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { ScrollArea } from "#client/ui/scroll-area.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { takeDay } from "#shared/selectors/take-reading.ts";
import { tempoWords } from "#shared/selectors/take-tempo.ts";
import { livelier, TEMPO_FINDINGS, tempoPoints, tempoStory } from "#shared/selectors/tempo-log.ts";
import { TempoPlot } from "./tempo-plot.tsx";

/** Takes in the drawing; older ones are in the log. */
const DRAWN = 12;

/** How fast it was played, take by take, and what that means. */
export const TempoItself = ({ file }: { readonly file: SongFile }) => {
  const href = useHref();
  const gigs = useGigs();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const { tempo: target } = file.song;
  const all = tempoPoints(file, (take) => takeDay(take, { gigs, timeZone }));
  const points = all.slice(-DRAWN);
  return (
    <div className="pt-3">
      {tempoStory(all, target, file.song.tolerance).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {points.length === 0 ? null : (
        <>
          <ScrollArea label="Tempo of the last takes">
            <TempoPlot points={points} target={target} />
          </ScrollArea>
          <p className="caption">
            From the bar to the dot: first to last tempo. Filled: clean; ring: wobble; cross: stopped; ▾ a
            slip.
            {target === null ? "" : " Bands: 2 and 4 % about the target."}
          </p>
          <Accordion summary="The same in words">
            <ol className="py-2">
              {[...points].reverse().map(({ take, day, feel, start, end }) => (
                <li key={take} className="border-b border-line">
                  <TextLink standing href={href(takeLink(file.song.id, take))}>
                    {dayText(day, today)}, {feel}
                  </TextLink>
                  <p className="pb-2 text-quiet">{tempoWords(start, end, target)}</p>
                </li>
              ))}
            </ol>
          </Accordion>
        </>
      )}
      {target === null ? null : (
        <Accordion summary="Livelier on the night?">
          <div className="py-2">
            <p>
              {livelier(target)
                .map(({ percent, bpm }) => `${percent} % more than ${target} is ${bpm}`)
                .join("; ")}
              .
            </p>
            <p className="mt-2">
              Up to 2 % hardly anybody notices, up to 4 % players feel it, beyond that dancers do: common
              practice, no published source.
            </p>
            {TEMPO_FINDINGS.map(({ text, source }) => (
              <p key={source} className="mt-2 text-quiet">
                {text} ({source}.)
              </p>
            ))}
          </div>
        </Accordion>
      )}
    </div>
  );
};
