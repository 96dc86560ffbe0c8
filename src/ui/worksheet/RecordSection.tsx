import { memo, type ReactNode, useContext } from 'react';
import type { BenchActions } from '../actions.ts';
import { PushButton } from '../controls/controls.tsx';
import { HelpContext } from '../help/HelpMark.tsx';
import { OpenLeavingContext } from '../leaving/leaving.ts';
import { Line, Section } from './Section.tsx';

interface RecordSectionProps {
  /** Whether the case is kept. */
  readonly saved: ReactNode;
  readonly hasFilm: boolean;
  readonly actions: BenchActions;
}

export const RecordSection = memo(function RecordSection({ saved, hasFilm, actions }: RecordSectionProps) {
  const open = useContext(OpenLeavingContext);
  const define = useContext(HelpContext);
  return (
    <Section title="Record" state={saved}>
      <Line name="Picture" note="One film or several, with axes, readings and cautions.">
        <PushButton disabled={!hasFilm} onPress={() => open('snapshot')}>
          Snapshot
        </PushButton>
      </Line>
      <Line name="Paper" note="For the folder, and in plain words for the patient.">
        <PushButton onPress={() => open('record')}>Record</PushButton>
        <PushButton onPress={() => open('patient')}>Patient sheet</PushButton>
      </Line>
      <Line name="Text and numbers">
        <PushButton onPress={() => open('note')}>Note</PushButton>
        <PushButton onPress={() => open('table')}>Tables</PushButton>
      </Line>
      <Line name="DICOM" note="For the archive, without the patient unless you choose otherwise.">
        <PushButton disabled={!hasFilm} onPress={() => open('object')}>
          DICOM
        </PushButton>
      </Line>
      <Line
        name="Case file"
        note="Opens again here or on another computer. Films are part of it only if you say so, with whatever their own files say of a person."
      >
        <PushButton onPress={() => actions.saveCaseFile(false)}>Marks only</PushButton>
        <PushButton onPress={() => actions.saveCaseFile(true)}>With films</PushButton>
      </Line>
      <Line name="Help">
        <PushButton quiet onPress={() => define(null)}>
          Definitions
        </PushButton>
        <PushButton quiet onPress={actions.showKeys}>
          Keys
        </PushButton>
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
});
