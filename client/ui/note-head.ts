/*
 * Note heads as paths: the one place that knows their geometry. All lengths are in the units of the caller's
 * viewBox. A head is an ellipse turned up to the right, its stem rises from the right side (common notation).
 */

/** Degrees a head is turned, counter-clockwise. */
const TILT = 20;
const COS = Math.cos((TILT * Math.PI) / 180);
const SIN = Math.sin((TILT * Math.PI) / 180);

/** Where a head sits, and how large it is: its longer radius; the shorter one follows. */
export interface HeadPlace {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

const FLATNESS = 0.74;
const r = (value: number): string => String(Math.round(value * 100) / 100);

/** Half the height of a head of this radius, as turned. */
export const halfHeight = (radius: number): number => radius * Math.hypot(SIN, FLATNESS * COS);

/** Half the width of a head of this radius, as turned. */
export const halfWidth = (radius: number): number => radius * Math.hypot(COS, FLATNESS * SIN);

/** Outline of a head; `inset` shrinks it, so that a stroke stays inside the size of a filled one. */
export const headPath = ({ x, y, radius }: HeadPlace, inset = 0): string => {
  const long = radius - inset;
  const short = radius * FLATNESS - inset;
  const [dx, dy] = [long * COS, long * SIN];
  const arc = (toX: number, toY: number) => `A${r(long)} ${r(short)} ${-TILT} 1 1 ${r(toX)} ${r(toY)}`;
  return `M${r(x - dx)} ${r(y + dy)}${arc(x + dx, y - dy)}${arc(x - dx, y + dy)}Z`;
};

/** The stem of a head, up to the height `top`; `width` is its stroke, kept inside the head's right edge. */
export const stemPath = ({ x, y, radius }: HeadPlace, top: number, width: number): string =>
  `M${r(x + halfWidth(radius) - width / 2)} ${r(y - radius * 0.25)}V${r(top)}`;

/** The stroke that strikes a head through, against its tilt, standing out on both sides. */
export const strikePath = ({ x, y, radius }: HeadPlace): string => {
  const [dx, dy] = [radius * 0.98, radius * 0.86];
  return `M${r(x - dx)} ${r(y - dy)}L${r(x + dx)} ${r(y + dy)}`;
};

/** Two interlocked rings: this one hangs together with another player's. */
export const linkPath = (x: number, y: number, radius: number): string => {
  const ring = (cx: number) =>
    `M${r(cx - radius)} ${r(y)}a${r(radius)} ${r(radius)} 0 1 1 ${r(2 * radius)} 0a${r(radius)} ${r(radius)} 0 1 1 ${r(-2 * radius)} 0Z`;
  return ring(x - radius * 0.62) + ring(x + radius * 0.62);
};

/** Dash pattern that gives an outline of this radius six even dashes. */
export const headDashes = (radius: number, inset: number): string => {
  const [a, b] = [radius - inset, radius * FLATNESS - inset];
  // Ramanujan's first approximation of the circumference of an ellipse (1914).
  const around = Math.PI * (3 * (a + b) - Math.sqrt((3 * a + b) * (a + 3 * b)));
  return `${r(around / 12)} ${r(around / 12)}`;
};
