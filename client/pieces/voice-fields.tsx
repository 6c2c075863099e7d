import { TextField } from "#client/ui/text-field.tsx";
import {
  OCTAVE_HINT,
  VOICE_LABELS,
  VOICE_NOTES,
  type VoiceReading,
  type VoiceText,
} from "#shared/selectors/voice-draft.ts";

export interface VoiceFieldsProps {
  readonly value: VoiceText;
  readonly onChange: (text: VoiceText) => void;
  /** What was read, once somebody tried to save. */
  readonly reading: VoiceReading | null;
}

/** What somebody can sing: four notes by name. */
export const VoiceFields = ({ value, onChange, reading }: VoiceFieldsProps) => (
  <fieldset className="min-w-0">
    <legend className="caption mb-1">What they can sing</legend>
    <p className="caption mb-2">
      By note and octave, such as F#3 or Bb4; {OCTAVE_HINT} The band sees it, to find keys. Empty = not said.
    </p>
    <div className="grid gap-x-6 gap-y-3 tablet:grid-cols-2">
      {VOICE_NOTES.map((note) => (
        <TextField
          key={note}
          label={VOICE_LABELS[note]}
          value={value[note]}
          maxLength={20}
          onChange={(text) => onChange({ ...value, [note]: text })}
          error={reading !== null && !reading.ok && reading.note === note ? reading.error : undefined}
        />
      ))}
    </div>
  </fieldset>
);
