import { useState } from "react";
import { useViewpoint } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Choice } from "#client/ui/choice.tsx";
import { Figure } from "#client/ui/figure.tsx";
import { SplitBar } from "#client/ui/split-bar.tsx";
import { dayWords } from "#shared/lib/day-words.ts";
import type { SongScore } from "#shared/readiness/song-score.ts";
import { isMostlyClaims } from "#shared/selectors/board-row.ts";
import { pointsOf, SPLIT_PARTS, type SplitPart, splitPoints } from "#shared/selectors/points.ts";

const PART_WORDS: { readonly [P in SplitPart]: string } = {
  shown: "shown by the log",
  said: "said by the players",
  waiting: "known, waiting for a partner",
  slipped: "lost to slips",
  unsaid: "neither said nor shown",
  uncovered: "nobody on the chair",
};

/** How much of a score rests on the log, in one sentence. */
const logSentence = (score: SongScore): string => {
  if (score.score === 0) return "Nothing has been said or played yet.";
  const share = `${pointsOf(score.logShare)} % of it rests on the log`;
  return isMostlyClaims(score)
    ? `Mostly claims: ${share}, the rest is what players say.`
    : `${share.charAt(0).toUpperCase()}${share.slice(1)}; the rest is what players say.`;
};

const Split = ({ score, label }: { readonly score: SongScore; readonly label: string }) => {
  const points = splitPoints(score.split);
  return (
    <SplitBar
      label={label}
      segments={SPLIT_PARTS.map((part) => ({
        label: PART_WORDS[part],
        share: score.split[part],
        value: `${points[part]} %`,
      }))}
    />
  );
};

/** The score today and on the night, and where every point of it comes from. */
export const ScoreFigures = ({ view }: { readonly view: SongView }) => {
  const [{ gig, today }] = useViewpoint();
  const [day, setDay] = useState<"today" | "night">("night");
  const night = gig === null ? "today" : `on ${dayWords(gig.date, { weekday: true, today })}`;
  const score = day === "today" || gig === null ? view.today : view.night;
  return (
    <>
      <div className="flex flex-wrap gap-x-10 gap-y-3">
        <Figure size="large" value={pointsOf(view.today.score)} unit="%" label="today" />
        {gig === null ? null : (
          <Figure
            size="large"
            value={pointsOf(view.night.score)}
            unit="%"
            label={`${night}, if nothing more happens`}
          />
        )}
      </div>
      <p className={isMostlyClaims(score) ? "mt-3 mb-4 font-semibold" : "mt-3 mb-4"}>{logSentence(score)}</p>
      {gig === null ? null : (
        <Choice
          label="Where the points come from"
          hideLabel
          value={day}
          onChange={setDay}
          options={[
            { value: "today", label: "Today" },
            { value: "night", label: "On the night" },
          ]}
          className="mb-4"
        />
      )}
      <Split score={score} label={`Where 100 % goes, ${day === "today" ? "today" : night}`} />
    </>
  );
};
