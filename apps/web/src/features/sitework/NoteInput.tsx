// A note, typed or spoken: gloves type badly. What was said stands in the field, to be read before it is recorded.
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import { canListen, listen } from './speech.ts';
import classes from './sitework.module.css';

type Props = { label: string; description?: string | undefined; value: string; onChange: (note: string) => void };

export function NoteInput({ label, description, value, onChange }: Props): ReactNode {
  const heard = useListening(value, onChange);
  return (
    <>
      <Textarea
        label={label}
        description={description}
        size="lg"
        mt="sm"
        autosize
        minRows={2}
        value={value}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
      {canListen() ? (
        <Button variant="default" size="lg" mt="xs" fullWidth aria-pressed={heard.on} onClick={heard.toggle}>
          {heard.on ? 'Stop listening' : 'Speak the note'}
        </Button>
      ) : (
        <p className={classes.soft}>To speak instead, press the microphone key of your keyboard.</p>
      )}
      <p role="status" className={classes.soft}>
        {heard.on ? 'Listening. What you say is added to the note.' : heard.problem}
      </p>
    </>
  );
}

/** Listens until pressed again; phrases go behind what stands there by then. Leaving the field's page ends it. */
function useListening(value: string, onChange: (note: string) => void) {
  const now = useRef({ value, onChange });
  useEffect(() => {
    now.current = { value, onChange };
  });
  const running = useRef<{ stop: () => void } | null>(null);
  useEffect(() => () => running.current?.stop(), []);
  const [on, setOn] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const phrase = (words: string) => {
    const before = now.current.value.trimEnd();
    const next = before === '' ? words : `${before} ${words}`;
    now.current.value = next; // two phrases may come before the field is drawn anew
    now.current.onChange(next);
  };
  const end = (why: string | null) => {
    running.current = null;
    setOn(false);
    setProblem(why);
  };
  const toggle = () => {
    if (running.current) return running.current.stop();
    setProblem(null);
    setOn(true);
    running.current = listen({ phrase, end });
  };
  return { on, problem, toggle };
}
