import { priorities } from '../../../shared/alarms/alarm.ts';
import { priorityWords } from '../../common/words.ts';
import { Field } from '../Form.tsx';

interface TextsFromProps {
  readonly label: string;
  readonly name: 'textsFrom' | 'toldFrom';
  readonly value?: string;
}

/** From which urgency on somebody is told. */
export function TextsFrom({ label, name, value = 'medium' }: TextsFromProps) {
  return (
    <Field
      label={label}
      name={name}
      value={value}
      choices={priorities.map((priority) => [priority, priorityWords[priority]])}
    />
  );
}
