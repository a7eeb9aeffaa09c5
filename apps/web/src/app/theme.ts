import { createTheme } from '@mantine/core';

/** The library's controls in the colours of tokens.css. */
export const theme = createTheme({
  primaryColor: 'verdigris',
  primaryShade: { light: 7, dark: 6 },
  fontFamily: 'var(--words)',
  fontFamilyMonospace: 'var(--figures)',
  defaultRadius: 'sm',
  cursorType: 'pointer',
  respectReducedMotion: true,
  focusRing: 'auto',
  colors: {
    verdigris: [
      '#e9f5f2',
      '#d3e8e3',
      '#a8d0c7',
      '#7bb7ab',
      '#569f93',
      '#3c8a7e',
      '#2a766c',
      '#1d635b',
      '#154f4a',
      '#0d3b38',
    ],
    dark: [
      '#e4ece7',
      '#c3d0cb',
      '#a6b8b3',
      '#7d938f',
      '#4b6462',
      '#283c3d',
      '#1b3032',
      '#152628',
      '#0e1b1d',
      '#0a1415',
    ],
  },
  components: {
    Button: { defaultProps: { size: 'sm' } },
    Modal: { defaultProps: { centered: true, overlayProps: { backgroundOpacity: 0.5 } } },
  },
});
