import { Accordion } from "#client/ui/accordion.tsx";
import { pairsForOne } from "#shared/selectors/textures/cover.ts";
import type { Energy } from "#shared/selectors/textures/energy.ts";
import { energyLines } from "#shared/selectors/textures/energy-words.ts";
import type { Picture } from "#shared/selectors/textures/picture.ts";
import { TextureTable } from "./texture-table.tsx";

/** The picture for whoever cannot or will not see it, and for one player who covers for two. */
export const TexturesInWords = ({
  picture,
  energy,
}: {
  readonly picture: Picture;
  readonly energy: Energy;
}) => (
  <>
    <Accordion summary="The same in words">
      <ul className="py-2">
        {energyLines(picture, energy).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <TextureTable picture={picture} />
    </Accordion>
    {pairsForOne(picture).map(({ title, lines }) => (
      <Accordion key={title} summary={title}>
        <ul className="py-2">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </Accordion>
    ))}
  </>
);
