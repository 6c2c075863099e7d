import { useState } from "react";
import { Accordion } from "./accordion.tsx";
import { ConnectionStatus } from "./connection-status.tsx";
import { Figure } from "./figure.tsx";
import { type BarHead, HeadsBar } from "./heads-bar.tsx";
import { ListRow } from "./list-row.tsx";
import { SectionHeading } from "./page-heading.tsx";
import { ScrollArea } from "./scroll-area.tsx";
import { SplitBar } from "./split-bar.tsx";
import { StatusButton } from "./status-button.tsx";
import { type GlyphLevel, StatusGlyph } from "./status-glyph.tsx";
import { StatusLegend } from "./status-legend.tsx";

const WORDS = ["not started", "noticed", "practised", "locked in"] as const;
const LEVELS = [0, 1, 2, 3] as const;
const SIZES = [16, 20, 24, 32, 40] as const;

const heads = (levels: string): readonly BarHead[] =>
  [...levels].flatMap((sign, index) => {
    const level = LEVELS.find((candidate) => String(candidate) === sign);
    if (level === undefined) return [];
    const next = levels[index + 1];
    const small = levels.slice(0, index).includes(" ");
    return [{ level, large: !small, slipped: next === "!", waiting: next === "~" }];
  });

const Glyphs = () => (
  <ScrollArea label="Every status">
    <table className="border-spacing-0 text-left" data-gallery="glyphs">
      <caption className="caption pb-2 text-left">
        Every status, plain, slipped and waiting, from 16 to 40 px
      </caption>
      <tbody>
        {LEVELS.map((level) => (
          <tr key={level}>
            <th scope="row" className="pr-6 font-normal">
              {WORDS[level]}
            </th>
            {SIZES.map((size) => (
              <td key={size} className="px-2 py-1 whitespace-nowrap">
                <StatusGlyph level={level} size={size} label={WORDS[level]} />
                <StatusGlyph level={level} size={size} slipped label={`${WORDS[level]}, slipped`} />
                <StatusGlyph
                  level={level}
                  size={size}
                  waiting
                  label={`${WORDS[level]}, waiting for a partner`}
                />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </ScrollArea>
);

const CHAIRS = ["Guitar", "Bass", "Drums", "Keys", "Lead", "Backing"] as const;

const BOARD = [
  { song: "Paper Lantern Hour", cells: ["333 33", "32~3 2", "333", "3 3333", "tacet", "33 2"] },
  { song: "Second Tram Home", cells: ["33!2 31", "22 1", "3322 2211", "unknown", "2 1", "33~ 2"] },
  { song: "Salt on the Amplifier", cells: ["101 0", "0!0", "12 00", "1111 000", "unknown", "2"] },
] as const;

const Bars = () => (
  <ScrollArea label="Three songs by six chairs">
    <table className="w-full min-w-[52rem] border-collapse text-left" data-gallery="bars">
      <thead>
        <tr className="caption">
          <th scope="col" className="pr-4 font-normal">
            Song
          </th>
          {CHAIRS.map((chair) => (
            <th key={chair} scope="col" className="border-l border-line pl-1 font-normal">
              {chair}
            </th>
          ))}
          <th scope="col" className="border-l border-line pl-3 text-right font-normal">
            Today
          </th>
        </tr>
      </thead>
      <tbody>
        {BOARD.map(({ song, cells }, row) => (
          <tr key={song}>
            <th scope="row" className="pr-4 font-normal whitespace-nowrap">
              {song}
            </th>
            {cells.map((cell, column) => (
              <td key={CHAIRS[column]} className="h-12 border-l border-line align-middle">
                {cell === "tacet" ? (
                  <HeadsBar heads={[]} tacet label="nothing to play" />
                ) : cell === "unknown" ? (
                  <HeadsBar heads={[]} label="nobody has said yet" />
                ) : (
                  <HeadsBar heads={heads(cell)} label={`${cell.length} details`} />
                )}
              </td>
            ))}
            <td className="border-l border-line pl-3 text-right text-title font-light">
              {[94, 61, 18][row]}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </ScrollArea>
);

const DETAILS = [
  { where: "Top", text: "Two bars of hats, then in. Nobody breathes before the one." },
  { where: "Verse 1, bar 5", text: "Out until the bass comes in, then lay back." },
  { where: "Bridge, 2nd time", text: "Third above, closed vowel, off together." },
] as const;

const Rows = ({ size }: { readonly size: "plain" | "room" }) => {
  const [levels, setLevels] = useState<readonly GlyphLevel[]>([1, 3, 2]);
  const step = (row: number) =>
    setLevels(levels.map((level, index) => (index === row ? (LEVELS[(level + 1) % 4] ?? 0) : level)));
  return (
    <ul>
      {DETAILS.map(({ where, text }, row) => {
        const level = levels[row] ?? 0;
        return (
          <ListRow
            key={where}
            size={size}
            note={where}
            trail={
              <StatusButton
                level={level}
                slipped={row === 1}
                waiting={row === 2}
                word={WORDS[level]}
                about={text}
                size={size}
                onClick={() => step(row)}
              />
            }
          >
            {text}
          </ListRow>
        );
      })}
    </ul>
  );
};

const Lists = () => (
  <>
    <SectionHeading title="Rows and folds" aside="48 px, and 56 px for the room" />
    <Accordion summary="Second Tram Home, in sight" startOpen name="gallery-songs">
      <Rows size="plain" />
    </Accordion>
    <Accordion summary="Salt on the Amplifier, folded" name="gallery-songs">
      <Rows size="plain" />
    </Accordion>
    <p className="caption pt-6">In the room</p>
    <div className="text-room">
      <Rows size="room" />
    </div>
    <ul className="mt-6">
      <ListRow lead={<StatusGlyph level={3} />} href="#/gallery" trail="2:41" note="leads somewhere">
        A row that is a link
      </ListRow>
      <ListRow lead={<StatusGlyph level={0} />} onOpen={() => {}} note="opens something">
        A row that is a button
      </ListRow>
    </ul>
  </>
);

/** Statuses, bars, figures and what they stand in. */
export const GalleryStatus = () => (
  <>
    <SectionHeading title="Legend" />
    <StatusLegend words={WORDS} />
    <SectionHeading title="Status glyphs" />
    <Glyphs />
    <SectionHeading title="Bars of the board" aside="large heads first" />
    <Bars />
    <div className="mt-6 w-40">
      <HeadsBar heads={heads("33332222 1100")} label="twelve details, five of them not shown" max={7} />
    </div>
    <SectionHeading title="Figures and splits" />
    <div className="flex flex-wrap items-end gap-8">
      <Figure size="large" value={62} unit="of 85 min" label="ready for Saturday" />
      <Figure value="94" unit="%" label="today" />
      <Figure value="88" unit="%" label="on the night" />
    </div>
    <div className="mt-6 max-w-xl">
      <SplitBar
        label="Where the score comes from"
        segments={[
          { label: "locked in together", share: 0.42, value: "42.0" },
          { label: "practised", share: 0.21, value: "21.0" },
          { label: "noticed", share: 0.08, value: "8.0" },
          { label: "faded since", share: 0.11, value: "11.0" },
          { label: "slipped last time", share: 0.06, value: "6.0" },
          { label: "not started", share: 0.12, value: "12.0" },
        ]}
      />
    </div>
    <Lists />
    <SectionHeading title="Connection" />
    <div className="flex flex-col items-start">
      <ConnectionStatus state="joined" text="all sent" />
      <ConnectionStatus state="apart" text="saved on this phone, 3 to send" onOpen={() => {}} />
      <ConnectionStatus state="refused" text="1 change refused" onOpen={() => {}} />
    </div>
  </>
);
