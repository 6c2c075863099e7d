/** What the second half of a section that is cut is called until somebody says otherwise. */
import { foldText } from "../lib/fold-text.ts";

const NAME_MAX = 200;
const NUMBERED = /^(.*?)\s*\((\d{1,3})\)$/s;

/** `Verse` → `Verse (2)`, `Verse (2)` → `Verse (3)`: the first number that none of `taken` has. At most 200 characters. */
export const halfName = (name: string, taken: readonly string[]): string => {
  const [, base = name.trim(), own = "1"] = NUMBERED.exec(name.trim()) ?? [];
  const known = new Set(taken.map(foldText));
  for (let n = Number(own) + 1; ; n += 1) {
    const number = ` (${n})`;
    const half = base.slice(0, NAME_MAX - number.length).trimEnd() + number;
    if (!known.has(foldText(half))) return half.trimStart();
  }
};
