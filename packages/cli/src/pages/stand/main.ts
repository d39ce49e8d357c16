import { keptSettings } from './kept.js';
import { Session } from './session.js';
import { Stand } from './stand.js';
import { type Start, scoreOf, settingsOf } from './start.js';
import { button, byId } from './view/dom.js';
import { keepFocusInSight } from './view/focus.js';

/** The script of a worker, which lies compressed in the page. */
async function unpacked(id: string): Promise<string> {
  const packed = Uint8Array.from(atob(byId(id).textContent!), (one) => one.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
  const script = await new Response(stream).blob();
  return URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
}

const start = JSON.parse(byId('start').textContent!) as Start;
const { version = '' } = document.documentElement.dataset;
byId<HTMLInputElement>('student').value = start.student ?? '';
byId('licences').textContent = byId('licence-texts').textContent;

/** The stand, as soon as its workers are unpacked: what is dropped before waits for it. */
const stand = Promise.all([unpacked('marking'), unpacked('drawing')]).then(
  ([marking, drawing]) =>
    new Stand(new Session({ marking, drawing }), keptSettings() ?? settingsOf(start.marking ?? {}), version),
);

const file = byId<HTMLInputElement>('file');
const open = async (own: File | undefined): Promise<void> => {
  if (own) (await stand).open(own.name, async () => new Uint8Array(await own.arrayBuffer()));
};
button('open', () => file.click());
file.addEventListener('change', () => {
  open(file.files?.[0]);
  // So that the same file can be opened again.
  file.value = '';
});
addEventListener('dragover', (event) => {
  event.preventDefault();
  document.body.classList.add('dropping');
});
addEventListener('dragleave', (event) => {
  if (!event.relatedTarget) document.body.classList.remove('dropping');
});
addEventListener('drop', (event) => {
  event.preventDefault();
  document.body.classList.remove('dropping');
  open(event.dataTransfer?.files[0]);
});
keepFocusInSight();
const given = scoreOf(start);
if (given) (await stand).open(given.name, async () => given.bytes);
