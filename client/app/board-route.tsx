import { useCallback, useMemo } from "react";
import { useLocation } from "wouter";
import { BoardScreen } from "#client/features/board/board-screen.tsx";
import { PartPanel } from "#client/features/part/part-panel.tsx";
import { usePartTitle } from "#client/features/part/use-part.ts";
import { ScorePanel } from "#client/features/score/score-panel.tsx";
import { boardLink, partLink, scoreLink } from "#client/pieces/links.ts";
import { useSong } from "#client/store/hooks.ts";
import { Sheet } from "#client/ui/sheet.tsx";
import { LAPTOP, useMediaQuery } from "#client/ui/use-media-query.ts";
import type { ScreenProps } from "./screen.tsx";
import { WhileOutLine } from "./while-out-slot.tsx";

const PartSheet = ({
  song,
  chair,
  onClose,
}: {
  readonly song: string;
  readonly chair: string;
  readonly onClose: () => void;
}) => {
  const { title, above } = usePartTitle(song, chair);
  return (
    <Sheet open onClose={onClose} title={title} above={above} subject={`${song}/${chair}`}>
      <PartPanel song={song} chair={chair} />
    </Sheet>
  );
};

const ScoreSheet = ({ song, onClose }: { readonly song: string; readonly onClose: () => void }) => {
  const file = useSong(song);
  return (
    <Sheet open onClose={onClose} title="Behind the score" above={file?.song.title} subject={song}>
      <ScorePanel song={song} />
    </Sheet>
  );
};

/**
 * The board, with a part or a score beside it on a laptop. On a phone they are pages of their own, so that the way
 * back is the phone's own.
 */
export const BoardRoute = ({ params }: ScreenProps) => {
  const [, go] = useLocation();
  const laptop = useMediaQuery(LAPTOP);
  const { what, song, chair } = params;
  const openPart = useMemo(
    () => (what === "part" && song !== undefined && chair !== undefined ? { song, chair } : null),
    [what, song, chair],
  );
  const onOpenPart = useCallback(
    (s: string, c: string) =>
      go(laptop ? `/board/part/${encodeURIComponent(s)}/${encodeURIComponent(c)}` : partLink(s, c)),
    [go, laptop],
  );
  const onOpenScore = useCallback(
    (s: string) => go(laptop ? `/board/score/${encodeURIComponent(s)}` : scoreLink(s)),
    [go, laptop],
  );
  const close = useCallback(() => go(boardLink()), [go]);
  return (
    <>
      <WhileOutLine />
      <BoardScreen onOpenPart={onOpenPart} onOpenScore={onOpenScore} openPart={openPart} />
      {openPart === null ? null : <PartSheet {...openPart} onClose={close} />}
      {what === "score" && song !== undefined ? <ScoreSheet song={song} onClose={close} /> : null}
    </>
  );
};
