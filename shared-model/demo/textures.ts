import type { Presence, TextureChange, TextureSource } from "../board/texture.ts";
import { CHAIR_CODES, type ChairCode, type SongCode } from "./demo-data.ts";

/** A chair that changes inside a section. */
export interface DemoEntry {
  readonly chair: ChairCode;
  /** By name. */
  readonly section: string;
  readonly changes: readonly TextureChange[];
}

export interface DemoTexture {
  readonly song: SongCode;
  readonly source: TextureSource;
  /** Each chair's presence by section in playing order; null = not said. */
  readonly rows: ReadonlyMap<ChairCode, readonly (Presence | null)[]>;
  readonly entries: readonly DemoEntry[];
}

const LETTERS: Readonly<Record<string, Presence>> = { ".": "rest", l: "light", p: "play", F: "full" };

const painted = (
  song: SongCode,
  source: TextureSource,
  rows: Readonly<Partial<Record<ChairCode, string>>>,
  entries: readonly DemoEntry[] = [],
): DemoTexture => ({
  song,
  source,
  rows: new Map(
    CHAIR_CODES.flatMap((chair) => {
      const row = rows[chair];
      return row === undefined ? [] : [[chair, [...row].map((letter) => LETTERS[letter] ?? null)] as const];
    }),
  ),
  entries,
});

const from = (chair: ChairCode, section: string, bar: number, presence: Presence): DemoEntry => ({
  chair,
  section,
  changes: [{ bar, pass: null, presence }],
});

/** Five songs as their records have them, and what the band does otherwise: a letter a section, a blank as recorded. */
export const DEMO_TEXTURES: readonly DemoTexture[] = [
  painted("MD", "recorded", {
    Gt1: "FpFpFFlpFF",
    Gt2: "FlFpFp.pFF",
    Bs: "ppF FF.pFF",
    Dr: "ppFpFFlpFF",
    Ky: "..plpp.lFp",
    Vx: ".pFpF..pF.",
  }, [from("Bs", "V2", 9, "play")]),
  painted("MD", "ours", { Ky: " l        ", Gt1: "      p   " }),
  painted("LT", "recorded", {
    Gt1: "ppppppplFl",
    Gt2: "..ll.lp.p.",
    Bs: "..lpppplFl",
    Dr: ".. plpp.F.",
    Ky: "lllplpppFl",
    Vx: ".ppF.pFpFl",
  }, [from("Dr", "V2", 9, "light")]),
  painted("LT", "ours", { Gt2: "   p      " }),
  painted("UT", "recorded", {
    Gt1: "ppFpFl.FF",
    Gt2: ".pFpF..FF",
    Bs: "pppppF.Fp",
    Dr: "ppFpFl.FF",
    Ky: "plplpp.Fp",
    Vx: ".pFpFp.F.",
  }),
  painted("UT", "ours", { Gt1: " F F     ", Gt2: " F F     ", Dr: " F F     ", Ky: " p p     " }),
  painted("RW", "recorded", {
    Gt1: "plpFppF.FF",
    Gt2: "llpFlpFlFF",
    Bs: "pppFppFlFF",
    Dr: "pppFppFlFF",
    Ky: "p pplpFpFp",
    Vx: ".ppFppFpF.",
  }, [from("Ky", "V1", 9, "light")]),
  painted("RW", "ours", { Ky: " l        " }),
  painted("EE", "recorded", {
    Gt1: ".llFlpF Fp",
    Gt2: "..lFlpF Fp",
    Bs: "lppFppFpFp",
    Dr: "lplFplFpFp",
    Ky: "plpFlpF.FF",
    Vx: ".ppFppF.F.",
  }, [from("Gt1", "Break", 9, "play"), from("Gt2", "Break", 9, "light")]),
]; // biome-ignore format: a chair a line
