import { pulseOf } from "#shared/music/pulse.ts";

/**
 * The tempo as a small bar of light. Small on purpose, and never more than three flashes a second (WCAG 2.3.1): a fast
 * song pulses on every second beat and says so. With reduced motion it stands still.
 */
export const PulseBar = ({ bpm, metre }: { readonly bpm: number; readonly metre: string }) => {
  const { beats, ms } = pulseOf(bpm, metre);
  return (
    <span aria-hidden="true" className="inline-flex items-center gap-2">
      <span
        data-pulse={ms}
        className="stand-pulse h-3 w-24 bg-ink forced-color-adjust-none"
        style={{ animationDuration: `${ms}ms` }}
      />
      {beats === 1 ? null : <span className="text-[20px] leading-6 text-quiet">1 in {beats}</span>}
    </span>
  );
};
