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
  const picture = pictureOf(file, chairs, "ours");
  return (
    <div className="hidden break-inside-avoid print:block">
      <p className="mt-4 mb-1 font-semibold">Who plays when</p>
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
