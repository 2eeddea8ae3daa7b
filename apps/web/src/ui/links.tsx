// Links inside the app that look like text or like a button; `to`, `params` and `search` are checked against the screens.
import { forwardRef } from 'react';
import { Anchor, Button, type AnchorProps, type ButtonProps } from '@mantine/core';
import { createLink } from '@tanstack/react-router';

const TextAnchor = forwardRef<HTMLAnchorElement, Omit<AnchorProps, 'href'>>((props, ref) => (
  <Anchor ref={ref} underline="always" inherit {...props} />
));
const ButtonAnchor = forwardRef<HTMLAnchorElement, Omit<ButtonProps, 'href'>>((props, ref) => (
  <Button ref={ref} component="a" {...props} />
));

export const TextLink = createLink(TextAnchor);
export const ButtonLink = createLink(ButtonAnchor);
