/** Paper first: millimetres and points; the screen adds a ground, room at the edges and its dark side. */
export const STYLE = `
:root { color-scheme: light dark; --ground: #fff; --ink: #111; --rule: #767676; }
* { box-sizing: border-box; }
html { background: var(--ground); color: var(--ink); }
body { max-width: 180mm; margin: 0 auto; padding: 6mm 0; font: 11pt/1.4 Georgia, "Liberation Serif", serif; overflow-wrap: anywhere; }
h1 { font-size: 20pt; line-height: 1.15; margin: 0; text-wrap: balance; }
h2 { font-size: 12.5pt; margin: 6mm 0 2mm; break-after: avoid; }
header { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; gap: 1mm 8mm; border-bottom: 0.5mm solid; padding-bottom: 2mm; }
header p { margin: 0; }
p { margin: 0 0 2mm; }
.teacher { white-space: pre-line; border-inline-start: 1mm solid var(--rule); padding-inline-start: 3mm; margin: 4mm 0 0; break-inside: avoid; }
.teacher h2 { margin: 0; font-size: inherit; }
figure { margin: 0; break-inside: avoid; }
.system { padding: 3mm 0 1mm; }
figcaption { font-size: 9pt; }
.pair { border-top: 0.3mm solid var(--rule); }
svg { display: block; color: inherit; }
.sign { display: inline; vertical-align: -0.8mm; }
.music { fill: currentColor; }
.music, .paper > .handline-picture { width: 100%; height: auto; }
.music text { font-family: "Liberation Serif", "Times New Roman", Tinos, Times, "Nimbus Roman", FreeSerif, serif; }
.views { display: flex; flex-wrap: wrap; gap: 4mm 6mm; }
.view { flex: 0 1 auto; max-width: 100%; }
.view svg { max-width: 100%; height: auto; }
.view figcaption { width: 0; min-width: 100%; }
ol, ul { margin: 0; padding-inline-start: 5mm; }
li { margin-bottom: 1mm; break-inside: avoid; }
.legend { columns: 2; column-gap: 8mm; list-style: none; padding: 0; font-size: 9.5pt; }
.contents { columns: 2; column-gap: 8mm; list-style: none; padding: 0; }
.contents li { display: flex; justify-content: space-between; gap: 3mm; }
.contents a { color: inherit; }
.contents span { white-space: nowrap; font-size: 9.5pt; }
.caution { border: 0.4mm solid; padding: 2mm 3mm; margin-top: 6mm; break-inside: avoid; }
.caution p { margin: 0; }
.made { font-size: 8pt; margin-top: 3mm; }
@page { margin: 14mm 15mm; }
@media screen {
  body { width: 94%; }
  .sheet { overflow-x: auto; }
  .sheet:focus-visible { outline: 3px solid; outline-offset: 2px; }
  .paper { min-width: 130mm; }
}
@media screen and (max-width: 500px) { .legend, .contents { columns: 1; } h1 { font-size: 17pt; } }
@media screen and (prefers-color-scheme: dark) { :root { --ground: #16181a; --ink: #f2f2f2; --rule: #9a9a9a; } }
@media print { :root { color-scheme: light; } body { padding: 0; } .sheet { overflow: visible; } }
`;
