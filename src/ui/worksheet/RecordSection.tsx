import type { BenchActions } from '../actions.ts';
import { PushButton } from '../controls/controls.tsx';
import { Line, Section } from './Section.tsx';

interface RecordSectionProps {
  readonly saved: string;
  readonly hasFilm: boolean;
  readonly actions: BenchActions;
}

export function RecordSection({ saved, hasFilm, actions }: RecordSectionProps) {
  return (
    <Section title="Record" state={saved}>
      <Line
        name="Snapshot"
        note="The film with its axes, readings, limits and cautions. No name, number or file name from the film is on it."
      >
        <PushButton disabled={!hasFilm} onPress={() => actions.saveSnapshot('png')}>
          PNG
        </PushButton>
        <PushButton disabled={!hasFilm} onPress={() => actions.saveSnapshot('svg')}>
          SVG
        </PushButton>
      </Line>
      <Line
        name="Case file"
        note="Opens again here or on another computer. Films are part of it only if you say so."
      >
        <PushButton onPress={() => actions.saveCaseFile(false)}>Marks only</PushButton>
        <PushButton onPress={() => actions.saveCaseFile(true)}>With films</PushButton>
      </Line>
      <Line name="Begin again">
        <PushButton quiet onPress={actions.newCase}>
          New case
        </PushButton>
        <PushButton quiet onPress={actions.openSample}>
          Sample case
        </PushButton>
      </Line>
    </Section>
  );
}
