import type { SongView } from "#client/store/song-view.ts";
import { usePrinting } from "#client/ui/use-printing.ts";
import { energyIn } from "#shared/selectors/textures/energy.ts";
import { pictureOf } from "#shared/selectors/textures/picture.ts";
import { TextureGrid } from "./texture-grid.tsx";

const NONE: ReadonlySet<string> = new Set();
const nothing = (): void => undefined;

/** Who plays when as we play it, on paper; nothing while nobody painted it. */
export const TexturePaper = ({ view: { file, chairs } }: { readonly view: SongView }) => {
  const printing = usePrinting();
  if (!printing || file.textures.size === 0 || file.sections.length === 0) return null;
  const whole = pictureOf(file, chairs, "ours");
  // Names on one line each keep the song on one sheet.
  const picture = { ...whole, parts: whole.parts.map((part) => ({ ...part, name: part.short })) };
  return (
    <div className="hidden break-inside-avoid print:block">
      <p className="mt-2 font-semibold">Who plays when</p>
      <TextureGrid
        picture={picture}
        energy={energyIn(picture)}
        source="ours"
        isMarked={() => false}
        empty={NONE}
        turned={false}
        brush="next"
        canPaint={false}
        active={null}
        onActive={nothing}
        onPaint={nothing}
        onOpen={nothing}
      />
      <p className="text-small">R rest, L light, P play, F full. Energy and lift out of 100.</p>
    </div>
  );
};
