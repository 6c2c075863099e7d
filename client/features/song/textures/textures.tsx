import { useRef, useState } from "react";
import { partLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Choice } from "#client/ui/choice.tsx";
import { ScrollArea } from "#client/ui/scroll-area.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { LAPTOP, useMediaQuery } from "#client/ui/use-media-query.ts";
import type { TextureChanges } from "#shared/board/texture.ts";
import { paintTexture } from "#shared/commands/paint-texture.ts";
import { wholeSection } from "#shared/music/texture-changes.ts";
import { playedWords } from "#shared/selectors/texture-words.ts";
import { textureClashes } from "#shared/selectors/textures/clashes.ts";
import { coverWords } from "#shared/selectors/textures/cover.ts";
import { differs, textureDifferences } from "#shared/selectors/textures/difference.ts";
import { energyIn } from "#shared/selectors/textures/energy.ts";
import { energyRemarks } from "#shared/selectors/textures/energy-words.ts";
import { textureHints } from "#shared/selectors/textures/hints.ts";
import { pictureOf } from "#shared/selectors/textures/picture.ts";
import { CellEntries } from "./cell-entries.tsx";
import { HintList } from "./hint-list.tsx";
import { TextureGrid } from "./texture-grid.tsx";
import { TexturesInWords } from "./textures-in-words.tsx";
import type { Brush, CellPlace, Stroke } from "./use-painting.ts";

type Shown = "recorded" | "ours" | "difference";

const SHOWN: readonly { readonly value: Shown; readonly label: string }[] = [
  { value: "recorded", label: "As recorded" },
  { value: "ours", label: "Ours" },
  { value: "difference", label: "Difference" },
];
const BRUSHES: readonly { readonly value: Brush; readonly label: string }[] = [
  { value: "next", label: "Next" },
  { value: "rest", label: "Rest" },
  { value: "light", label: "Light" },
  { value: "play", label: "Play" },
  { value: "full", label: "Full" },
  { value: "clear", label: "Clear" },
];

const KEY_WORDS =
  "Arrow keys move; R, L, P, F or 0 to 3 paint, with Shift an arrow paints on; Enter leads to bars and times, Delete clears.";

/** Who plays when: painted, weighed, and told in words. */
export const Textures = ({ view }: { readonly view: SongView }) => {
  const { file, chairs, lineUp, gig } = view;
  const { role } = useAuthor();
  const act = useAct();
  const href = useHref();
  const laptop = useMediaQuery(LAPTOP);
  const [shown, setShown] = useState<Shown>("ours");
  const [brush, setBrush] = useState<Brush>("next");
  const [active, setActive] = useState<CellPlace | null>(null);
  const entries = useRef<HTMLDivElement>(null);
  const source = shown === "recorded" ? "recorded" : "ours";
  const recorded = pictureOf(file, chairs, "recorded");
  const ours = pictureOf(file, chairs, "ours");
  const picture = source === "recorded" ? recorded : ours;
  const { sections, parts } = picture;
  if (sections.length === 0 || parts.length === 0)
    return (
      <p className="py-3">
        {sections.length === 0
          ? "Write the form first: who plays when is painted on its sections."
          : "No chair plays in this song."}
      </p>
    );
  const canPaint = role !== "guest" && shown !== "difference";
  const energy = energyIn(picture);
  const hints = shown === "ours" ? textureHints(picture, energy, file.dismissed) : [];
  const differences = textureDifferences(recorded, ours);
  const empty = new Set(
    parts.filter(({ chair }) => (lineUp.get(chair) ?? null) === null).map(({ chair }) => chair),
  );
  const night = gig === null ? null : gig.name || gig.place || "the next gig";
  const covers = parts.flatMap(
    (part) => coverWords(picture, { lineUp, cards: file.cards, gig: night }, part) ?? [],
  );

  const paint = (cells: readonly CellPlace[], changes: TextureChanges): void => {
    const [first] = cells;
    const part = parts.find(({ chair }) => chair === first?.chair);
    const section = sections.find(({ id }) => id === first?.section);
    if (part === undefined || section === undefined) return;
    const words = playedWords(changes, section.bars) || "not said";
    const label =
      cells.length > 1 ? `${cells.length} cells: ${words}` : `${part.name} in ${section.name}: ${words}`;
    act(
      paintTexture,
      { song: file.song.id, source, cells: cells.map((cell) => ({ ...cell, changes: [...changes] })) },
      label,
    );
  };
  const onPaint = ({ presence, cells }: Stroke): void => paint(cells, wholeSection(presence));
  const chosenPart = parts.find(({ chair }) => chair === active?.chair);
  const chosenAt = sections.findIndex(({ id }) => id === active?.section);
  const chosen = sections[chosenAt];

  return (
    <div className="pt-2">
      <Choice
        label="Which reading"
        hideLabel
        value={shown}
        options={SHOWN}
        onChange={setShown}
        className="no-print"
      />
      {canPaint ? (
        <Choice
          label="A tap or a drag paints"
          value={brush}
          options={BRUSHES}
          onChange={setBrush}
          className="no-print mt-2"
        />
      ) : null}
      {energy.counted.length > 0 ? null : (
        <p className="mt-2">
          Nothing is painted yet. Paint the record while you listen; under “Ours” then only what you change.
        </p>
      )}
      <ScrollArea label="Who plays when, section by section" className="mt-3">
        <TextureGrid
          picture={picture}
          energy={energy}
          source={source}
          isMarked={(p, s) => shown === "difference" && differs(recorded, ours, p, s)}
          empty={empty}
          turned={!laptop}
          brush={brush}
          canPaint={canPaint}
          active={active}
          onActive={setActive}
          onPaint={onPaint}
          onOpen={() => entries.current?.querySelector("input")?.focus()}
        />
      </ScrollArea>
      <p className="caption mt-1">
        R rest, L light, P play, F full; italic as recorded. Energy and lift out of 100.
        {canPaint && laptop ? ` ${KEY_WORDS}` : ""}
      </p>
      {covers.map((sentence) => (
        <p key={sentence} className="mt-2">
          {sentence}
        </p>
      ))}
      {canPaint && chosenPart !== undefined && chosen !== undefined ? (
        <div ref={entries} className="no-print">
          <CellEntries
            key={`${chosen.id}/${chosenPart.chair}`}
            title={`${chosenPart.name} in ${chosen.name}`}
            bars={chosen.bars}
            passes={chosen.passes}
            changes={chosenPart.cells[chosenAt]?.changes ?? []}
            onChange={(changes) => paint([{ section: chosen.id, chair: chosenPart.chair }], changes)}
          />
        </div>
      ) : null}
      {shown === "difference" ? (
        <ul className="mt-2">
          {differences.length === 0 ? (
            <li>We play it as the record does, as far as both are painted.</li>
          ) : null}
          {differences.map(({ sentence }) => (
            <li key={sentence} className="border-b border-line py-1">
              {sentence}
            </li>
          ))}
        </ul>
      ) : (
        <div className="mt-2">
          {energyRemarks(picture, energy).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          {shown === "ours" ? (
            <HintList song={file.song.id} hints={hints} dismissed={file.dismissed} canDismiss={canPaint} />
          ) : null}
        </div>
      )}
      {shown === "ours"
        ? textureClashes(file.cards, picture).map(({ card, chair, sentence }) => (
            <p key={`${card}/${chair}`} className="mt-2">
              {sentence} <TextLink href={href(partLink(file.song.id, chair, card))}>Open the detail</TextLink>
            </p>
          ))
        : null}
      <TexturesInWords picture={picture} energy={energy} />
    </div>
  );
};
