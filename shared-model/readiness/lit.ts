import type { TakeKind } from "../board/take.ts";
import { DAY } from "./decay.ts";

/** A clean take seen as a lamp: it lights the days that follow it. */
export interface Lamp {
  /** Moment (ms) it was lit. */
  readonly at: number;
  /** Brightness; 0 gives no light. */
  readonly bright: number;
  readonly kind: TakeKind;
}

/**
 * What lamp `i` adds to the light of the lamps after it, in full takes:
 * (1/g) ∫ max(0, bright − brightest later lamp) dx over the `g` days from it.
 * Added up from the last lamp to the first this is (1/g) ∫ max{ bright : at ≤ x < at + g } dx: takes of one night
 * overlap and count once, takes g days apart count fully.
 * `lamps` must be in order of time; only the first `count` burn; with `together`, solo work gives no light.
 */
export const addedLight = (
  lamps: readonly Lamp[],
  i: number,
  count: number,
  g: number,
  together: boolean,
): number => {
  const lamp = lamps[i];
  if (lamp === undefined || lamp.bright <= 0 || (together && lamp.kind === "solo")) return 0;
  const end = lamp.at + g * DAY;
  let now = lamp.at;
  let brightest = 0;
  let area = 0;
  // A later lamp that starts before this one ends also ends after it, so the brightest so far only grows.
  for (let j = i + 1; j < count; j++) {
    const later = lamps[j];
    if (later === undefined || later.at >= end) break;
    if (later.bright <= brightest || (together && later.kind === "solo")) continue;
    area += (lamp.bright - brightest) * (later.at - now);
    if (later.bright >= lamp.bright) return area / (g * DAY);
    now = later.at;
    brightest = later.bright;
  }
  return (area + (lamp.bright - brightest) * (end - now)) / (g * DAY);
};
