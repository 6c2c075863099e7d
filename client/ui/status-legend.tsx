import type { ReactNode } from "react";
import { HeadsBar } from "./heads-bar.tsx";
import { StatusGlyph } from "./status-glyph.tsx";

export interface StatusLegendProps {
  /** The words of the four levels, lowest first. */
  readonly words: readonly [string, string, string, string];
}

const Entry = ({ sign, children }: { readonly sign: ReactNode; readonly children: ReactNode }) => (
  <li className="flex min-h-9 items-center gap-3">
    <span className="flex w-10 shrink-0 justify-center">{sign}</span>
    <span>{children}</span>
  </li>
);

/** What the shapes mean, to be read in ten seconds. */
export const StatusLegend = ({ words }: StatusLegendProps) => (
  <ul className="grid gap-x-8 tablet:grid-cols-2">
    <Entry sign={<StatusGlyph level={0} />}>{words[0]}</Entry>
    <Entry sign={<StatusGlyph level={1} />}>{words[1]}</Entry>
    <Entry sign={<StatusGlyph level={2} />}>{words[2]}</Entry>
    <Entry sign={<StatusGlyph level={3} />}>{words[3]}</Entry>
    <Entry sign={<StatusGlyph level={3} slipped />}>struck through: it slipped</Entry>
    <Entry sign={<StatusGlyph level={2} waiting />}>two rings: waiting for a partner</Entry>
    <Entry
      sign={
        <HeadsBar
          heads={[
            { level: 3, large: true },
            { level: 3, large: false },
          ]}
        />
      }
    >
      large heads are musts
    </Entry>
    <Entry sign={<HeadsBar heads={[]} tacet />}>nothing to play</Entry>
    <Entry sign={<HeadsBar heads={[]} className="w-10" />}>an empty bar: nobody has said yet</Entry>
  </ul>
);
