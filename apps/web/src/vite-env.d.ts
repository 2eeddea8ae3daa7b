// What the build tool lets the code import besides TypeScript: style sheets and their class names.
/// <reference types="vite/client" />
