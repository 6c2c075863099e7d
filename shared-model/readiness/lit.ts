import { DAY } from "./decay.ts";

/** A clean take seen as a lamp: it lights the days that follow it. */
export interface Lamp {
  /** Moment (ms) it was lit. */
  readonly at: number;
  /** Brightness; 0 gives no light. */
  readonly bright: number;
}

/**
 * How much practice a row of lamps is worth, in full takes:
 * (1/g) ∫ max{ bright : at ≤ x < at + g } dx, with `g` in days.
 * Lamps of one night overlap and count once; lamps g days apart count fully.
 * `lamps` must be in order of time; those before index `from` and those `keep` turns down are left out.
 */
export const lit = <L extends Lamp>(
  lamps: readonly L[],
  g: number,
  from = 0,
  keep: (lamp: L) => boolean = () => true,
): number => {
  const span = g * DAY;
  // Candidates for the maximum, brightest first: a later lamp outlives every dimmer one before it.
  const burning: L[] = [];
  let first = 0;
  let now = Number.NEGATIVE_INFINITY;
  let area = 0;
  const burnUntil = (end: number): void => {
    for (let lamp = burning[first]; lamp !== undefined; lamp = burning[first]) {
      const out = Math.min(lamp.at + span, end);
      if (out > now) {
        area += lamp.bright * (out - now);
        now = out;
      }
      if (lamp.at + span > end) return;
      first++;
    }
  };
  for (let i = from; i < lamps.length; i++) {
    const lamp = lamps[i];
    if (lamp === undefined || lamp.bright <= 0 || !keep(lamp)) continue;
    burnUntil(lamp.at);
    now = lamp.at;
    while (burning.length > first && (burning.at(-1)?.bright ?? 0) <= lamp.bright) burning.pop();
    burning.push(lamp);
  }
  burnUntil(Number.POSITIVE_INFINITY);
  return area / span;
};
