import { useRef } from "react";
import { useMediaQuery } from "#client/ui/use-media-query.ts";
import { beatsPerBar } from "#shared/music/metre.ts";
import type { ClickGround } from "#shared/selectors/practice-click.ts";
import { type OpenClick, useHeard } from "./use-click.ts";

/** Said of where the click is; the beat itself is heard and not told. */
const placeWords = (
  heard: ReturnType<typeof useHeard>,
  { choices, state }: OpenClick,
  { stretch }: ClickGround,
): string => {
  if (state !== "playing" || heard === null) return choices.loop && stretch !== null ? stretch.name : "";
  if (heard.bar < 0) return "count-in";
  const silent = heard.muted ? ", silent" : "";
  if (!choices.loop || stretch === null) return `bar ${heard.bar + 1}${silent}`;
  return `${stretch.name}: bar ${(heard.bar % stretch.bars) + 1} of ${stretch.bars}, ${heard.loop + 1}×${silent}`;
};

/**
 * A thin bar with a field per beat, in which the beat that is heard is filled, and the place in words. Small on
 * purpose: it stays far under the area that may flash (WCAG 2.3.1). With reduced motion it stands still.
 */
export const BeatBar = ({ click, ground }: { readonly click: OpenClick; readonly ground: ClickGround }) => {
  const bar = useRef<HTMLDivElement>(null);
  const still = useMediaQuery("(prefers-reduced-motion: reduce)");
  const heard = useHeard(click, (now) => {
    if (still || bar.current === null) return;
    for (const [beat, field] of [...bar.current.children].entries())
      field.toggleAttribute("data-heard", now !== null && now.beat === beat && !now.muted);
  });
  const beats = beatsPerBar(ground.metre);
  const bpm = click.choices.rise > 0 && heard !== null ? heard.bpm : click.choices.bpm;
  return (
    <>
      <p className="text-center">
        <output className="text-[5.5rem] leading-none font-light tracking-tight">
          {Math.round(bpm * 10) / 10}
        </output>{" "}
        <span className="text-title text-quiet">bpm</span>
      </p>
      <div ref={bar} aria-hidden="true" data-beat-bar className="mx-auto mt-3 flex h-3 max-w-xl gap-1">
        {Array.from({ length: beats }, (_, beat) => (
          <span
            // biome-ignore lint/suspicious/noArrayIndexKey: a beat is its number
            key={beat}
            className="flex-1 border border-control forced-color-adjust-none data-heard:border-ink data-heard:bg-ink"
          />
        ))}
      </div>
      <p className="my-2 min-h-8 text-center text-title text-quiet">{placeWords(heard, click, ground)}</p>
    </>
  );
};
