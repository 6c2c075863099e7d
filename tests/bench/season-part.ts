import { type Line, ms, type Part, table } from "./part.ts";

interface Measured {
  readonly state: "grown" | "squashed";
  readonly bytes: number;
  readonly deflated: number;
  readonly clients: number;
  readonly structs: number;
  readonly stateVectorBytes: number;
  readonly apply: { readonly best: number; readonly p50: number };
  readonly read: { readonly best: number; readonly p50: number };
}

interface Compared {
  readonly state: "compared";
  readonly squash: { readonly p50: number };
  readonly sameBoard: boolean;
  readonly differingScores: number;
}

const kB = (bytes: number): string => `${Math.round(bytes / 1000).toLocaleString("en-GB")} kB`;
const count = (value: number): string => value.toLocaleString("en-GB");

/** A board of three years before and after its season is closed. */
export const seasonPart: Part = {
  name: "season",
  title: "Closing the season",
  program: "season.ts",
  always: true,
  show: (lines: readonly Line[]) => {
    const found = <T>(state: string): T => {
      const line = lines.find((one) => one.state === state);
      if (line === undefined) throw new Error(`The ${state} board was not measured.`);
      return line as unknown as T;
    };
    const [grown, squashed] = [found<Measured>("grown"), found<Measured>("squashed")];
    const compared = found<Compared>("compared");
    const rows: readonly (readonly [string, (board: Measured) => string])[] = [
      ["the document", ({ bytes }) => kB(bytes)],
      ["the document, deflated", ({ deflated }) => kB(deflated)],
      ["Yjs clients", ({ clients }) => count(clients)],
      ["Yjs structs", ({ structs }) => count(structs)],
      ["state vector", ({ stateVectorBytes }) => `${count(stateVectorBytes)} B`],
      ["loading it, p50", ({ apply }) => ms(apply.p50)],
      ["reading the board from it, p50", ({ read }) => ms(read.p50)],
    ];
    const figures = [
      {
        what: "scores that differ afterwards",
        now: `${compared.differingScores}${compared.sameBoard ? "" : ", and the board differs"}`,
        budget: "0",
        reached: compared.sameBoard && compared.differingScores === 0,
      },
    ];
    const markdown = [
      `A board of three years (60 songs × 8 chairs × 10 details, 72,000 changes of a status, 10,000 takes, 900 visits). Closing its season takes ${ms(compared.squash.p50)}; ${compared.differingScores} scores differ afterwards.`,
      table(
        ["figure", "before", "after"],
        rows.map(([what, write]) => [what, write(grown), write(squashed)]),
      ),
    ].join("\n\n");
    return { figures, markdown };
  },
};
