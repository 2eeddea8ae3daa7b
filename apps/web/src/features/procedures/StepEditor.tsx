// The form of one step of a draft.
import type { ReactNode } from 'react';
import {
  Button,
  Checkbox,
  Fieldset,
  MultiSelect,
  NativeSelect,
  NumberInput,
  Select,
  SimpleGrid,
  Stack,
  Textarea,
  TextInput,
} from '@mantine/core';
import type { Step } from '@backsight/domain/procedures/step';
import { ITEM_KINDS } from '@backsight/domain/shared/facts';
import { STEP_PLACES, type StepPlace } from '@backsight/domain/shared/places';
import { hazardPlaceOf } from '@backsight/domain/sitework/hazards';
import { RuleEditor } from '../../ui/applicability/RuleEditor.tsx';
import { BasisEditor } from './BasisEditor.tsx';
import { EvidenceEditor } from './EvidenceEditor.tsx';
import { ReferencesEditor } from './ReferencesEditor.tsx';

export type StepEditorProps = {
  step: Step;
  /** The key was approved before: what the step means is settled. */
  fixed: boolean;
  /** The system of its procedure. */
  system: string;
  services: Readonly<Record<string, string>>;
  /** Names of kinds of kit and of qualifications by key. */
  names: { kit: Readonly<Record<string, string>>; qualifications: Readonly<Record<string, string>> };
  /** Titles of all steps of the book by key. */
  titles: Readonly<Record<string, string>>;
  onChange: (step: Step) => void;
  /** Puts a new step in its place that is derived from it. */
  onReplace: () => void;
};

const WHO = { either: 'either of the pair', first: 'the first of the pair', partner_check: 'both, independently (partner check)' };
const STYLE = { do_then_confirm: 'do, then confirm', read_then_do: 'read, then do (danger or order)' };
const options = (words: Record<string, string>) => Object.entries(words).map(([value, label]) => ({ value, label }));

/** Named choices; what is chosen but no longer on file stays to be seen. */
const named = (names: Readonly<Record<string, string>>, chosen: readonly string[]) =>
  options({ ...Object.fromEntries(chosen.map((key) => [key, key])), ...names });

/** The step without a text that was emptied. */
const withText = (step: Step, name: 'caution' | 'sequence' | 'qualification', text: string): Step => {
  const { [name]: _, ...rest } = step;
  return text === '' ? rest : { ...rest, [name]: text };
};

const withPlace = ({ place: _, ...step }: Step, place: StepPlace | ''): Step => (place === '' ? step : { ...step, place });

export function StepEditor(props: StepEditorProps): ReactNode {
  const { step, services, onChange } = props;
  return (
    <Fieldset legend={`Step ${step.key}`} mb="md">
      <Stack gap="sm">
        <Words {...props} />
        <Meaning {...props} />
        <RuleEditor legend="Applies when" rule={step.applies} services={services} onChange={(applies) => onChange({ ...step, applies })} />
        <Place {...props} />
        <Work {...props} />
        <Order {...props} />
        <ReferencesEditor references={step.references} onChange={(references) => onChange({ ...step, references })} />
      </Stack>
    </Fieldset>
  );
}

function Words({ step, onChange }: StepEditorProps): ReactNode {
  return (
    <>
      <TextInput label="Title" required value={step.title} onChange={(event) => onChange({ ...step, title: event.currentTarget.value })} />
      <Textarea
        label="Instruction"
        required
        autosize
        minRows={2}
        value={step.instruction}
        onChange={(event) => onChange({ ...step, instruction: event.currentTarget.value })}
      />
      <Textarea
        label="Why"
        required
        autosize
        minRows={1}
        value={step.why}
        onChange={(event) => onChange({ ...step, why: event.currentTarget.value })}
      />
      <Textarea
        label="Caution"
        description="Blank: none. A step with a caution is read before it is done."
        autosize
        minRows={1}
        value={step.caution ?? ''}
        onChange={(event) => onChange(withText(step, 'caution', event.currentTarget.value))}
      />
    </>
  );
}

function Meaning({ step, fixed, titles, onChange, onReplace }: StepEditorProps): ReactNode {
  return (
    <Fieldset legend="How it is recorded">
      {fixed ? (
        <p style={{ marginTop: 0 }}>
          The kind of record and the things it is done for are settled for this step. To change them,{' '}
          <Button variant="default" size="compact-sm" onClick={onReplace}>
            replace it by a new step
          </Button>
          .
        </p>
      ) : null}
      <EvidenceEditor evidence={step.evidence} fixed={fixed} titles={titles} onChange={(evidence) => onChange({ ...step, evidence })} />
      <NativeSelect
        mt="sm"
        maw={320}
        label="Done"
        disabled={fixed}
        data={[
          { value: 'property', label: 'once at the property' },
          ...options(ITEM_KINDS).map(({ value, label }) => ({ value, label: `for each ${label}` })),
        ]}
        value={step.per}
        onChange={(event) => onChange({ ...step, per: event.currentTarget.value as Step['per'] })}
      />
    </Fieldset>
  );
}

/** What a step that does not say where it is done is taken for is named in the first choice. */
function Place({ step, system, onChange }: StepEditorProps): ReactNode {
  const bySystem = hazardPlaceOf({ stepKey: step.key, system, per: step.per, itemId: null }) ?? 'elsewhere';
  return (
    <NativeSelect
      maw={320}
      label="Where it is done"
      description="A place with a stop list is looked at for danger before the step; a stop there closes the step."
      data={[
        { value: '', label: `as its system has it: ${STEP_PLACES[bySystem]}` },
        ...options(STEP_PLACES).map(({ value, label }) => ({ value, label: value === 'elsewhere' ? 'elsewhere: no stop list' : label })),
      ]}
      value={step.place ?? ''}
      onChange={(event) => onChange(withPlace(step, event.currentTarget.value as StepPlace | ''))}
    />
  );
}

function Work({ step, names, onChange }: StepEditorProps): ReactNode {
  return (
    <>
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect
          label="Recorded by"
          data={options(WHO)}
          value={step.who}
          onChange={(event) => onChange({ ...step, who: event.currentTarget.value as Step['who'] })}
        />
        <NativeSelect
          label="Way of working"
          data={options(STYLE)}
          value={step.style}
          onChange={(event) => onChange({ ...step, style: event.currentTarget.value as Step['style'] })}
        />
        <NumberInput
          label="Planned minutes on site"
          min={0}
          max={240}
          value={step.minutes}
          onChange={(value) => onChange({ ...step, minutes: Number(value) })}
        />
        <Select
          label="Qualification needed"
          placeholder="none"
          clearable
          data={named(names.qualifications, step.qualification === undefined ? [] : [step.qualification])}
          value={step.qualification ?? null}
          onChange={(chosen) => onChange(withText(step, 'qualification', chosen ?? ''))}
        />
      </SimpleGrid>
      <Checkbox
        label="Only one person can enter"
        checked={step.onePersonOnly ?? false}
        onChange={(event) => onChange({ ...step, onePersonOnly: event.currentTarget.checked })}
      />
      <MultiSelect
        label="Kit"
        searchable
        data={named(names.kit, step.kit)}
        value={[...step.kit]}
        onChange={(kit) => onChange({ ...step, kit })}
      />
      <BasisEditor step={step} onChange={onChange} />
    </>
  );
}

function Order({ step, titles, onChange }: StepEditorProps): ReactNode {
  const others = options(titles).filter(({ value }) => value !== step.key);
  return (
    <SimpleGrid cols={{ base: 1, xs: 2 }}>
      <MultiSelect
        label="After these steps"
        searchable
        data={others}
        value={[...step.after]}
        onChange={(after) => onChange({ ...step, after })}
      />
      <TextInput
        label="Sequence"
        description="Steps that share this word are done without others between; blank: none"
        value={step.sequence ?? ''}
        onChange={(event) => onChange(withText(step, 'sequence', event.currentTarget.value.trim()))}
      />
    </SimpleGrid>
  );
}
