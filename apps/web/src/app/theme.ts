// How the component library draws with our tokens (tokens.css). It knows one set of names; the tokens themselves turn dark, so it stays in its light scheme.
import { createTheme, type CSSVariablesResolver, type MantineColorsTuple } from '@mantine/core';

/** The ten steps that the library asks for, from what we name: a ground, the same under a pointer, lines, the filled color, that under a pointer, words. */
const steps = (tint: string, tintHover: string, line: string, filled: string, hover: string, words: string): MantineColorsTuple => [
  tint,
  tint,
  tintHover,
  line,
  line,
  filled,
  filled,
  filled,
  hover,
  words,
];
const named = (name: string): MantineColorsTuple =>
  steps(
    `var(--bs-${name}-tint)`,
    `var(--bs-${name}-tint-hover)`,
    `var(--bs-${name}-line)`,
    `var(--bs-${name})`,
    `var(--bs-${name}-deep)`,
    `var(--bs-${name}-deep)`,
  );
const primary = steps(
  'var(--bs-primary-tint)',
  'var(--bs-primary-tint-hover)',
  'var(--bs-primary-line)',
  'var(--bs-primary)',
  'var(--bs-primary-hover)',
  'var(--bs-primary-deep)',
);
const gray: MantineColorsTuple = [
  'var(--bs-sunken)',
  'var(--bs-sunken)',
  'var(--bs-sunken-deep)',
  'var(--bs-line)',
  'var(--bs-edge)',
  'var(--bs-edge)',
  'var(--bs-ink-soft)',
  'var(--bs-ink-soft)',
  'var(--bs-ink)',
  'var(--bs-ink)',
];

const heading = (size: string, lineHeight: string) => ({ fontSize: `var(--bs-text-${size})`, lineHeight });

export const theme = createTheme({
  colors: { primary, gray, red: named('wrong'), orange: named('caution') },
  primaryColor: 'primary',
  primaryShade: 7,
  black: 'var(--bs-ink)',
  white: 'var(--bs-surface)',
  fontFamily: 'var(--bs-font)',
  fontFamilyMonospace: 'var(--bs-font-code)',
  defaultRadius: 'sm',
  cursorType: 'pointer',
  respectReducedMotion: true,
  fontSizes: {
    xs: 'var(--bs-text-fine)',
    sm: 'var(--bs-text-dense)',
    md: 'var(--bs-text-body)',
    lg: 'var(--bs-text-lead)',
    xl: 'var(--bs-text-h2)',
  },
  lineHeights: { xs: '1.4', sm: '1.45', md: 'var(--bs-leading)', lg: '1.5', xl: '1.4' },
  spacing: {
    xs: 'var(--bs-space-4)',
    sm: 'var(--bs-space-5)',
    md: 'var(--bs-space-6)',
    lg: 'var(--bs-space-7)',
    xl: 'var(--bs-space-9)',
  },
  radius: {
    xs: 'var(--bs-radius-small)',
    sm: 'var(--bs-radius-small)',
    md: 'var(--bs-radius)',
    lg: 'var(--bs-radius)',
    xl: 'var(--bs-radius)',
  },
  shadows: {
    xs: 'none',
    sm: 'var(--bs-shadow-floating)',
    md: 'var(--bs-shadow-floating)',
    lg: 'var(--bs-shadow-floating)',
    xl: 'var(--bs-shadow-floating)',
  },
  headings: {
    fontFamily: 'var(--bs-font)',
    fontWeight: 'var(--bs-weight-heading)',
    sizes: { h1: heading('h1', '1.25'), h2: heading('h2', '1.3'), h3: heading('h3', '1.35') },
  },
  // By their names, so that no screen loads one for its settings alone.
  components: {
    // The colour of a warning stands too pale on its own ground to be read.
    Alert: { styles: { title: { color: 'var(--bs-ink)' } } },
    Badge: { defaultProps: { variant: 'outline', color: 'gray.7', tt: 'none', fw: 600, radius: 'sm' } },
    Button: { defaultProps: { fw: 600 } },
    FileInput: { defaultProps: { placeholder: 'Choose a file' } },
    Fieldset: { defaultProps: { mx: 0, radius: 'sm' } },
    Modal: { styles: { title: { fontSize: 'var(--bs-text-h2)', fontWeight: 'var(--bs-weight-heading)' } } },
    InputWrapper: {
      styles: { error: { fontSize: 'var(--bs-text-small)' }, description: { fontSize: 'var(--bs-text-small)' } },
    },
  },
});

/** The library's own names, said in ours. */
export const cssVariables: CSSVariablesResolver = () => ({
  variables: {},
  light: {
    '--mantine-color-scheme': 'light dark',
    '--mantine-color-body': 'var(--bs-ground)',
    '--mantine-color-text': 'var(--bs-ink)',
    '--mantine-color-dimmed': 'var(--bs-ink-soft)',
    '--mantine-color-placeholder': 'var(--bs-ink-soft)',
    '--mantine-color-error': 'var(--bs-wrong)',
    '--mantine-color-success': 'var(--bs-primary)',
    '--mantine-color-anchor': 'var(--bs-primary)',
    '--mantine-color-default-border': 'var(--bs-edge)',
  },
  dark: {},
});
