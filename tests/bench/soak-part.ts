import { type Line, type Part, reachedWord, table } from "./part.ts";

const FIELDS = ["rssMb", "heapMb", "files", "handles"] as const;
/** Rows of the table of samples. */
const SHOWN = 12;

interface Verdict {
  readonly minutes: number;
  readonly visits: number;
  /** Visits to which the board did not come within a minute. */
  readonly stuck: number;
  readonly warm: Line;
  readonly end: Line;
  readonly memoryReturns: boolean;
  readonly handlesReturn: boolean;
}

/** The server under coming and going. */
export const soakPart: Part = {
  name: "soak",
  title: "Server, coming and going",
  program: "soak.ts",
  always: false,
  show: (lines) => {
    const verdict = lines.find((line) => line.verdict === true) as unknown as Verdict | undefined;
    if (verdict === undefined) throw new Error("The soak came to no verdict.");
    const { warm, end, minutes, visits, stuck, memoryReturns, handlesReturn } = verdict;
    const figures = [
      {
        what: "memory returns to near its level after warming up",
        now: `${end.rssMb} MB, heap ${end.heapMb} MB`,
        budget: `near ${warm.rssMb} MB, heap ${warm.heapMb} MB`,
        reached: memoryReturns,
      },
      {
        what: "no handle stays open",
        now: `${end.files} files, ${end.handles} handles`,
        budget: `near ${warm.files} files, ${warm.handles} handles`,
        reached: handlesReturn,
      },
      { what: "visits to which the board did not come", now: `${stuck}`, budget: "0", reached: stuck === 0 },
    ];
    const samples = lines.filter((line) => typeof line.phase === "string");
    const step = Math.ceil(samples.length / SHOWN);
    const rows = samples
      .filter((line, i) => i % step === 0 || String(line.phase).startsWith("after"))
      .map((line) => [
        `${line.seconds} s`,
        `${line.phase}`,
        `${line.visits}`,
        ...FIELDS.map((name) => `${line[name]}`),
      ]);
    const markdown = [
      `${visits.toLocaleString("en-GB")} visits to 200 boards in ${minutes} minutes after warming up.`,
      table(
        ["verdict", "at the end", "wanted", "reached"],
        figures.map(({ what, now, budget, reached }) => [what, now, budget, reachedWord(reached)]),
      ),
      table(["at", "phase", "visits", "memory, MB", "heap, MB", "open files", "handles"], rows),
    ].join("\n\n");
    return { figures, markdown };
  },
};
