/*
 * Contrast of two colours: WCAG 2.2, definitions of "relative luminance" and "contrast ratio"
 * (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio).
 */

const channel = (value: number): number => {
  const share = value / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
};

/** Red, green and blue, 0 to 255. */
export type Rgb = readonly [number, number, number];

/** Reads `#rrggbb` or the `rgb(…)` of a computed style. */
export const parseColour = (text: string): Rgb => {
  const hex = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(text.trim());
  const parts = hex
    ? hex.slice(1).map((pair) => Number.parseInt(pair, 16))
    : (text.match(/[\d.]+/g) ?? []).map(Number);
  const [red, green, blue] = parts;
  if (red === undefined || green === undefined || blue === undefined) throw new Error(`no colour: ${text}`);
  return [red, green, blue];
};

const luminance = ([red, green, blue]: Rgb): number =>
  0.2126 * channel(red) + 0.7152 * channel(green) + 0.0722 * channel(blue);

/** 1 (alike) to 21 (black on white). Never rounded: 6.999 is not 7. */
export const contrast = (one: string, other: string): number => {
  const [a, b] = [luminance(parseColour(one)), luminance(parseColour(other))];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
};
