// The design's tokens: ink and lake-blue on warm paper, the system's own fonts, small radii. State is told in words, not in colors.
import {
  Alert,
  Badge,
  Button,
  createTheme,
  Fieldset,
  InputWrapper,
  type CSSVariablesResolver,
  type MantineColorsTuple,
} from '@mantine/core';

const lake: MantineColorsTuple = [
  '#eef4f6',
  '#dbe7eb',
  '#b9d0d8',
  '#92b5c2',
  '#6e9bac',
  '#4f8296',
  '#3a6b80',
  '#2a566a',
  '#1f4455',
  '#163341',
];
const paper: MantineColorsTuple = [
  '#faf8f4',
  '#f3f0ea',
  '#e8e3da',
  '#d8d2c6',
  '#8f8778',
  '#7d7566',
  '#676054',
  '#565046',
  '#3b372f',
  '#26231e',
];
/** For what is wrong with an input, always beside words. */
const clay: MantineColorsTuple = [
  '#f9f0ec',
  '#f1ddd4',
  '#e3bcac',
  '#d2957d',
  '#bf6f52',
  '#a8543a',
  '#8f4029',
  '#78341f',
  '#5f2918',
  '#471e11',
];

const system = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', 'Open Sans', 'Liberation Sans', sans-serif";

export const theme = createTheme({
  colors: { lake, gray: paper, red: clay },
  primaryColor: 'lake',
  primaryShade: 7,
  black: '#1d2427',
  white: '#ffffff',
  fontFamily: system,
  fontFamilyMonospace: 'ui-monospace, SFMono-Regular, Menlo, Consolas, monospace',
  defaultRadius: 'sm',
  cursorType: 'pointer',
  respectReducedMotion: true,
  fontSizes: { xs: '0.8rem', sm: '0.9rem', md: '1rem', lg: '1.125rem', xl: '1.3rem' },
  lineHeights: { xs: '1.4', sm: '1.45', md: '1.5', lg: '1.5', xl: '1.4' },
  headings: {
    fontFamily: system,
    fontWeight: '650',
    sizes: {
      h1: { fontSize: '1.55rem', lineHeight: '1.25' },
      h2: { fontSize: '1.2rem', lineHeight: '1.3' },
      h3: { fontSize: '1.02rem', lineHeight: '1.35' },
    },
  },
  components: {
    // The colour of a warning stands too pale on its own ground to be read.
    Alert: Alert.extend({ styles: { title: { color: 'var(--mantine-color-text)' } } }),
    Badge: Badge.extend({ defaultProps: { variant: 'outline', color: 'gray.7', tt: 'none', fw: 600, radius: 'sm' } }),
    Button: Button.extend({ defaultProps: { fw: 600 } }),
    Fieldset: Fieldset.extend({ defaultProps: { mx: 0, radius: 'sm' } }),
    InputWrapper: InputWrapper.extend({ styles: { error: { fontSize: '0.85rem' }, description: { fontSize: '0.85rem' } } }),
  },
});

/** Colors of surfaces and text, by purpose. Screens use these names, never a number of a palette. */
export const cssVariables: CSSVariablesResolver = () => ({
  variables: {
    '--bs-ground': paper[0],
    '--bs-surface': '#ffffff',
    '--bs-sunken': paper[1],
    '--bs-line': paper[3],
    '--bs-edge': paper[5],
    '--bs-ink': '#1d2427',
    '--bs-ink-soft': paper[6],
    '--bs-primary': lake[7],
    '--bs-primary-deep': lake[9],
    '--bs-primary-tint': lake[0],
    '--bs-primary-line': lake[2],
    '--bs-wrong': clay[6],
    '--bs-wrong-tint': clay[0],
  },
  light: {
    '--mantine-color-body': paper[0],
    '--mantine-color-text': '#1d2427',
    '--mantine-color-dimmed': paper[6],
    '--mantine-color-placeholder': paper[6],
    '--mantine-color-error': clay[6],
    '--mantine-color-anchor': lake[7],
    '--mantine-color-default-border': paper[5],
  },
  dark: {},
});
