import { Session } from './session.js';
import { Stand } from './stand.js';
import { type Start, scoreOf, settingsOf } from './start.js';
import { button, byId } from './view/dom.js';

/** The script of a worker, which lies compressed in the page. */
async function unpacked(id: string): Promise<string> {
  const packed = Uint8Array.from(atob(byId(id).textContent!), (one) => one.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
  const script = await new Response(stream).blob();
  return URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
}

const start = JSON.parse(byId('start').textContent!) as Start;
const { version = '' } = document.documentElement.dataset;
byId('licences').textContent = byId('licence-texts').textContent;
const [marking, drawing] = await Promise.all([unpacked('marking'), unpacked('drawing')]);
const stand = new Stand(new Session({ marking, drawing }), settingsOf(start.marking ?? {}), version);

const file = byId<HTMLInputElement>('file');
const open = (own: File | undefined) =>
  own && stand.open(own.name, async () => new Uint8Array(await own.arrayBuffer()));
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
const given = scoreOf(start);
if (given) stand.open(given.name, async () => given.bytes);
