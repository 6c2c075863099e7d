import { ScrollArea } from "#client/ui/scroll-area.tsx";
import { playedWords } from "#shared/selectors/texture-words.ts";
import type { Picture } from "#shared/selectors/textures/picture.ts";

/** The picture as a plain table of words, a row a section. */
export const TextureTable = ({ picture: { sections, parts } }: { readonly picture: Picture }) => (
  <ScrollArea label="Who plays when as a table">
    <table className="text-small">
      <thead>
        <tr>
          <th scope="col" className="p-1 text-left">
            Section
          </th>
          {parts.map(({ chair, name }) => (
            <th key={chair} scope="col" className="p-1 text-left">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {sections.map(({ id, name, bars }, s) => (
          <tr key={id} className="border-t border-line">
            <th scope="row" className="p-1 text-left font-semibold">
              {name}
            </th>
            {parts.map(({ chair, cells }) => (
              <td key={chair} className="min-w-24 p-1 align-top">
                {playedWords(cells[s]?.changes ?? [], bars) || "not said"}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </ScrollArea>
);
