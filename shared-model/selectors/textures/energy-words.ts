import type { Joint } from "../../music/texture.ts";
import { listed } from "../../readiness/names.ts";
import { timeWords } from "../texture-words.ts";
import type { Energy } from "./energy.ts";
import type { Picture } from "./picture.ts";

/** Energies and lifts are shown out of a hundred. */
export const outOf100 = (share: number): number => Math.round(share * 100);

/** `lifts by 12`, `drops by 8`, `as big, but other parts play`, `stays as it is`. */
export const jointWords = ({ lift, contrast }: Joint): string => {
  const by = outOf100(lift);
  if (by !== 0) return by > 0 ? `lifts by ${by}` : `drops by ${-by}`;
  return outOf100(contrast) > 0 ? "as big, but other parts play" : "stays as it is";
};

/** The form as one hears it: `Verse 1: 54. Chorus 1: 82, lifts by 28.` A section that is not painted says so. */
export const energyLines = ({ sections }: Picture, energy: Energy): readonly string[] =>
  sections.map(({ name }, i) => {
    const own = energy.sections[i];
    const joint = i === 0 ? null : energy.joints[i - 1];
    if (own === null || own === undefined) return `${name}: not painted yet`;
    return `${name}: ${outOf100(own)}${joint ? `, ${jointWords(joint)}` : ""}`;
  });

const cells = (n: number): string => (n === 1 ? "1 part of a section" : `${n} parts of sections`);

/** What stands out, and what the numbers leave out; in the order one wants to know it. */
export const energyRemarks = (picture: Picture, energy: Energy): readonly string[] => {
  const { sections, parts } = picture;
  const remarks: string[] = [];
  if (energy.turn !== null) {
    const { section, bar, pass } = energy.turn;
    const of = sections[section];
    const time = (of?.passes ?? 1) > 1 ? `, the ${timeWords(pass)}` : "";
    remarks.push(`The biggest turn is at ${of?.name ?? ""}${bar === 1 ? "" : ` bar ${bar}`}${time}.`);
  }
  if (energy.counted.length > 0 && energy.missing > 0)
    remarks.push(
      `${cells(energy.missing)} ${energy.missing === 1 ? "is" : "are"} not painted yet; hints come when all are.`,
    );
  const silent = parts.filter((_, i) => !energy.counted.includes(i)).map(({ name }) => name);
  if (energy.counted.length > 0 && silent.length > 0)
    remarks.push(`Not counted, as nothing is said of them: ${listed(silent)}.`);
  return remarks;
};
