import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { chairWords, LINE_UP_PRESETS, type LineUpPreset } from "#shared/board/line-up-presets.ts";
import { addLineUp } from "#shared/commands/add-line-up.ts";

export interface PickLineUpProps {
  /** Called after a line-up went in. */
  readonly onPicked?: () => void;
}

/** Common line-ups to start from. Picking one adds its chairs; each can be renamed or taken away afterwards. */
export const PickLineUp = ({ onPicked }: PickLineUpProps) => {
  const act = useAct();
  const pick = (preset: LineUpPreset) => {
    const chairs = preset.chairs.map((chair) => ({ ...chair }));
    if (act(addLineUp, { chairs }, `Added the chairs: ${chairWords(preset)}`)) onPicked?.();
  };
  return (
    <ul className="border-t border-line">
      {LINE_UP_PRESETS.map((preset) => (
        <li key={preset.id} className="flex items-center justify-between gap-4 border-b border-line py-1.5">
          <span className="min-w-0">
            {preset.name}
            <span className="caption block">{chairWords(preset)}</span>
          </span>
          <Button aria-label={`Use ${preset.name}: ${chairWords(preset)}`} onClick={() => pick(preset)}>
            Use
          </Button>
        </li>
      ))}
    </ul>
  );
};
