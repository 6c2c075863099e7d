import { useState } from "react";
import { useAuthor } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { KeyFit, KeyLine } from "#shared/selectors/key-fit.ts";
import { RangeScale, RangeStrip, type Span, spanOf } from "./range-picture.tsx";
import { RuleKey } from "./rule-key.tsx";

const costWords = (cost: number): string => cost.toFixed(2);

export interface KeyListProps {
  readonly fit: KeyFit;
  readonly file: SongFile;
}

/** The keys with where the melody lies in each; every one opens to its terms. */
export const KeyList = ({ fit, file }: KeyListProps) => {
  const { best, now, voice } = fit;
  const apart = best.every(({ up }) => up !== 0);
  const span = spanOf(
    voice,
    [...best, now].map(({ melody }) => melody),
  );
  return (
    <>
      <p className="caption mt-2">
        The frame is the whole voice, the grey part is comfortable, a bar is a note of the melody, as high as
        it is often sung.
      </p>
      <div className="pl-7">
        <RangeScale voice={voice} span={span} spelling={fit.from} />
      </div>
      <ol aria-label="Keys, the best first" className="border-t border-control">
        {best.map((line) => (
          <li key={line.up}>
            <KeyRow line={line} fit={fit} file={file} span={span} />
          </li>
        ))}
      </ol>
      {apart ? (
        <div className="mt-3 border-t border-control">
          <p className="caption pt-2">For comparison</p>
          <KeyRow line={now} fit={fit} file={file} span={span} />
        </div>
      ) : null}
    </>
  );
};

interface KeyRowProps extends KeyListProps {
  readonly line: KeyLine;
  readonly span: Span;
}

const KeyRow = ({ line, fit, file, span }: KeyRowProps) => (
  <Accordion
    summary={
      <span className="block py-2">
        <span className="flex flex-wrap items-baseline gap-x-3">
          <span className="text-room font-semibold">{line.name}</span>
          <span className="text-quiet">{line.place}</span>
          <span className="ml-auto">
            cost <span className="font-semibold">{costWords(line.cost)}</span>
          </span>
        </span>
        <RangeStrip voice={fit.voice} melody={line.melody} span={span} />
        <span className="caption block">
          {line.range} · {line.pays.length === 0 ? "asks nothing of the band" : line.pays.join(" · ")}
        </span>
      </span>
    }
  >
    <KeyInside line={line} fit={fit} file={file} />
  </Accordion>
);

const KeyInside = ({ line, fit, file }: Omit<KeyRowProps, "span">) => {
  const { role } = useAuthor();
  const [ruling, setRuling] = useState(false);
  const isOurs = file.song.key === line.key;
  return (
    <div className="flex flex-col gap-3 pb-4 pl-7">
      {line.cautions.length === 0 ? null : (
        <ul aria-label="To watch" className="border-l-4 border-accent pl-3">
          {line.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
      <dl>
        {line.terms.map(({ term, label, cost, words }) => (
          <div key={term} className="border-b border-line py-1.5">
            <dt className="flex items-baseline justify-between gap-x-3">
              <span className="font-semibold">{label}</span>
              <span>{costWords(cost)}</span>
            </dt>
            <dd className="text-quiet">{words}</dd>
          </div>
        ))}
      </dl>
      <p className="text-quiet">{line.crossCheck}</p>
      {isOurs ? <p className="caption">It is the key the song stands in.</p> : null}
      {isOurs || role !== "leader" ? null : ruling ? (
        <RuleKey line={line} fit={fit} file={file} onDone={() => setRuling(false)} />
      ) : (
        <Button className="no-print self-start" onClick={() => setRuling(true)}>
          Rule this key: {line.name}
        </Button>
      )}
      {!isOurs && role !== "leader" ? <p className="caption">The leader can rule it here.</p> : null}
    </div>
  );
};
