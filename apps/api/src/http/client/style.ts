// The style of a client's page: a phone first, large letters, black on white, and a paper when printed.
export const STYLE = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #f4f3ef; color: #1d1f1e; font: 17px/1.55 system-ui, -apple-system, "Segoe UI", sans-serif; }
main { max-width: 44rem; margin: 0 auto; padding: 1.25rem 1rem 4rem; }
h1 { font-size: 1.45rem; line-height: 1.25; margin: 0.25rem 0 0.75rem; }
h2 { font-size: 1.15rem; margin: 2rem 0 0.5rem; }
h3 { font-size: 1.05rem; margin: 1.4rem 0 0.3rem; }
p { margin: 0.5rem 0; overflow-wrap: anywhere; }
dl { display: grid; grid-template-columns: 1fr; gap: 0 1rem; margin: 0 0 1rem; }
dt { color: #55595a; font-size: 0.92rem; margin-top: 0.5rem; }
dd { margin: 0; }
@media (min-width: 40rem) { dl { grid-template-columns: 9rem 1fr; } dt { margin-top: 0; } }
.note { border-left: 4px solid #8a5a00; background: #fff8e8; padding: 0.6rem 0.9rem; margin: 1rem 0; }
.good { border-left-color: #1f6b3a; background: #eef7f0; }
.bad { border-left-color: #a32020; background: #fdf0ef; }
.paper { background: #fff; border: 1px solid #d5d3cb; padding: 1rem; margin: 1rem 0; }
.paper p { white-space: pre-line; }
.fingerprint { font: 0.82rem/1.5 ui-monospace, Consolas, monospace; overflow-wrap: anywhere; }
fieldset { border: 0; margin: 1rem 0 0; padding: 0; }
legend { font-weight: 600; padding: 0; }
canvas { width: 100%; height: auto; aspect-ratio: 3 / 1; display: block; background: #fff; border: 1px solid #6d7172; border-radius: 4px; touch-action: none; }
.drawn { width: 100%; max-width: 20rem; height: auto; background: #fff; }
.quiet { background: #fff; color: #1d4a66; border: 1px solid #1d4a66; }
.changes { padding-left: 1.1rem; }
.changes p { margin: 0.2rem 0; }
.tag { color: #55595a; }
ins { text-decoration: none; font-weight: 600; }
label { display: block; margin: 1rem 0 0.25rem; font-weight: 600; }
.wrong { color: #a32020; font-weight: 600; }
[aria-invalid=true] { border: 2px solid #a32020; outline-color: #a32020; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #d5d3cb; padding: 0.3rem 0.5rem; text-align: left; vertical-align: top; }
.check { display: flex; min-height: 48px; gap: 0.7rem; align-items: flex-start; font-weight: 400; }
.check input { width: 1.5rem; height: 1.5rem; margin: 0.1rem 0 0; flex: none; }
input[type=text], input[type=date], select, textarea { width: 100%; font: inherit; padding: 0.7rem; border: 1px solid #6d7172; border-radius: 4px; background: #fff; color: inherit; }
button { font: inherit; font-weight: 600; margin-top: 1.25rem; padding: 0.8rem 1.4rem; min-height: 48px; width: 100%; border: 0; border-radius: 4px; background: #1d4a66; color: #fff; cursor: pointer; }
@media (min-width: 40rem) { button { width: auto; } }
.advice { display: none; }
.danger:has(input:checked) + .advice { display: block; }
@supports not selector(:has(*)) { .advice { display: block; } }
.own { padding-left: 1.1rem; }
.own li { margin: 0.5rem 0; overflow-wrap: anywhere; }
.own button { width: auto; margin-top: 0; padding: 0.4rem 0.9rem; }
input[type=file] { width: 100%; font: inherit; padding: 0.7rem 0; min-height: 48px; }
:focus-visible { outline: 3px solid #c77700; outline-offset: 2px; }
@media print {
  @page { margin: 18mm; }
  body { background: #fff; font-size: 11pt; }
  main { max-width: none; padding: 0; }
  .paper { border: 0; padding: 0; }
  h1, h2, h3, h4 { break-after: avoid; }
  p, li { orphans: 3; widows: 3; }
  .note, dt, tr { break-inside: avoid; }
  a { color: inherit; text-decoration: none; }
  form, .screen { display: none; }
}
`;
