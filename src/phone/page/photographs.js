import {make, key, button, field, choice, when} from './elements.js';
import {tap, view, waiting, takenBack} from './link.js';

const kLongestSide = 2000;       // pixels
const kMostPoints = 100_000_000; // more than that no phone has in its memory
const kQuality = .85;
const kept = {};
let picked = null;  // {bytes, width, height}: chosen, and not kept yet
let problem = '';
let isBusy = false;
let redraw = () => {};

const tail = (id) => id.slice(19);

// Where the bytes of what waits here can be looked at, each as long as it waits.
const lent = new Map();
function lend(bytes) {
  if (!lent.has(bytes)) lent.set(bytes, URL.createObjectURL(new Blob([bytes], {type: 'image/jpeg'})));
  return lent.get(bytes);
}
function takeIn(used) {
  for (const [bytes, where] of lent) {
    if (used.has(bytes)) continue;
    URL.revokeObjectURL(where);
    lent.delete(bytes);
  }
}

// The picture alone, drawn anew: nothing of place, time or device comes along.
async function scaled(file) {
  const where = URL.createObjectURL(file);
  try {
    const image = new Image();
    await new Promise((take, refuse) => {
      image.onload = take;
      image.onerror = () => refuse(new Error(`${file.name} is no picture that this browser can read. ` +
        'Take one with the camera, or choose a JPEG, PNG or WebP.'));
      if (file.type === 'image/svg+xml') image.onerror();
      else image.src = where;
    });
    const {naturalWidth: width, naturalHeight: height} = image;
    if (width * height > kMostPoints) {
      throw new Error(`${file.name} has ${width} by ${height} points, which is more than is taken ` +
        '(100 million). Take a smaller one.');
    }
    const share = Math.min(1, kLongestSide / Math.max(width, height));
    const canvas = make('canvas', {
      width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share))});
    const drawing = canvas.getContext('2d');
    drawing.imageSmoothingQuality = 'high';
    drawing.fillStyle = '#fff';
    drawing.fillRect(0, 0, canvas.width, canvas.height);
    drawing.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise((take) => canvas.toBlob(take, 'image/jpeg', kQuality));
    if (!blob) throw new Error(`This phone has no memory left for ${file.name}. Close other pages, then try again.`);
    return {bytes: await blob.arrayBuffer(), width: canvas.width, height: canvas.height};
  } finally {
    URL.revokeObjectURL(where);
  }
}

async function pick(file) {
  if (!file || isBusy) return;
  isBusy = true;
  problem = '';
  redraw();
  try {
    picked = await scaled(file);
  } catch (why) {
    problem = why.message;
  }
  isBusy = false;
  redraw();
}

const input = (label, name, attributes) => make('label', {class: 'button key second'}, label,
  make('input', {type: 'file', class: 'unseen', accept: 'image/*', 'data-key': name, ...attributes,
    change: (event) => pick(event.target.files[0])}));

const caption = (row) => `${row.note ? row.note + '. ' : ''}${row.by}, ${when(row.done_at)}`;

// Small, each leading to itself large.
export function thumbnails(rows) {
  const gone = takenBack();
  const left = rows.filter((row) => !gone.has(tail(row.id)));
  return left.length > 0 && make('ul', {class: 'photos'}, left.map((row) => make('li', {},
    make('a', {href: '#/photograph/' + row.line, 'data-key': 'photo ' + row.line},
      make('img', {src: '/api/photograph/' + row.sha256, loading: 'lazy', decoding: 'async',
        alt: row.note || 'photograph'}),
      make('span', {}, row.of + (row.note ? ': ' + row.note : ''))))));
}

const kShown = 4;

// The newest of them on the page of what they show, and the way to take another.
export const photographsOf = (of, rows) => [
  make('h2', {}, 'Photographs'),
  thumbnails(rows.slice(0, kShown)),
  make('a', {class: 'button', href: '#/photographs/' + of.split('/').map(encodeURIComponent).join('/')},
    rows.length > kShown ? `All ${rows.length}, or another one` : 'Take a photograph')
];

const isPhotograph = (deed) => deed.kind === 'photograph';

function waitingHere(shown) {
  const deeds = waiting(shown).filter(isPhotograph);
  takeIn(new Set([...deeds.map((deed) => deed.picture), picked && picked.bytes]));
  return deeds.length > 0 && make('ul', {class: 'photos'}, deeds.map((deed) => make('li', {},
    deed.picture && make('img', {src: lend(deed.picture), alt: deed.note || 'photograph'}),
    make('span', {}, `kept here: ${deed.where}${deed.note ? ': ' + deed.note : ''}`))));
}

function where() {
  const of = kept.of;
  return of === 'machine' || of.includes(':') || !(kept.at || '').trim() ? of : `${of}/${kept.at.trim()}`;
}

function keeping() {
  return [
    make('img', {class: 'whole', src: lend(picked.bytes), alt: 'what was taken'}),
    field('What is to be seen', 'note', kept),
    make('div', {class: 'keys'},
      key('Keep it', () => {
        const deed = {kind: 'photograph', where: where()};
        if ((kept.note || '').trim()) deed.note = kept.note.trim();
        const {bytes} = picked;
        picked = null;
        kept.note = '';
        tap(deed, 'photograph of ' + deed.where, bytes);
      }, 'whole'),
      key('Another one', () => { picked = null; redraw(); }, 'second whole'))
  ];
}

// "J06/3", "J06", "machine" or the id of a deviation.
function preset(of) {
  const [joint, at] = of.includes(':') ? [of] : of.split('/');
  if (kept.preset === of) return;
  kept.preset = of;
  kept.of = joint || kept.of || 'machine';
  kept.at = at || '';
}

export async function photographs(of, draw) {
  redraw = draw;
  const shown = await view('/api/photographs' + (of ? '?' + new URLSearchParams({of}) : ''));
  preset(of);
  return () => {
    const head = make('h1', {}, of ? 'Photographs of ' + of : 'Photographs');
    if (!shown.photographs) return [head, make('p', {class: 'refused'}, shown.refused)];
    const subjects = [['machine', 'The machine'],
      ...shown.joints.map((each) => [each.joint, `${each.joint} ${each.holds}`]),
      ...shown.deviations.map((each) => [each.id, each.says])];
    const isJoint = shown.joints.some((each) => each.joint === kept.of);
    const waits = waitingHere(shown);
    return [
      head,
      problem && make('p', {class: 'refused', role: 'alert'}, problem),
      choice('What it shows', 'of', subjects, kept, () => redraw()),
      isJoint && field('Positions, such as 3 or 1-4; empty for the whole joint', 'at', kept,
        {inputmode: 'text'}),
      isBusy ? make('p', {role: 'status'}, 'The picture is made ready.')
        : picked ? keeping()
          : make('div', {class: 'keys'}, input('Camera', 'camera', {capture: 'environment'}),
            input('From this phone', 'album', {})),
      waits,
      shown.photographs.length === 0 && !waits && make('p', {class: 'soft'}, 'There is none so far.'),
      thumbnails(shown.photographs)
    ].flat();
  };
}

export async function photograph(line) {
  const shown = await view('/api/photographs');
  return () => {
    const row = (shown.photographs || []).find((each) => String(each.line) === line);
    if (!row || takenBack().has(tail(row.id))) {
      return [make('h1', {}, 'Photograph'), make('p', {class: 'refused'},
        shown.refused || 'It was taken back, or is not in this logbook.'),
        make('a', {class: 'button', href: '#/photographs'}, 'All photographs')];
    }
    return [
      make('h1', {}, row.of),
      make('a', {href: '/api/photograph/' + row.sha256, class: 'picture'},
        make('img', {class: 'whole', src: '/api/photograph/' + row.sha256, alt: row.note || 'photograph of ' + row.of})),
      make('p', {}, caption(row)),
      make('p', {class: 'soft'}, `line ${row.line}, ${row.width} by ${row.height}`),
      make('div', {class: 'row'},
        make('a', {class: 'button', href: '#/photographs'}, 'All photographs'),
        button('Take it back', () => {
          tap({kind: 'undo', of: tail(row.id)}, `take back: photograph of ${row.of}`);
        }))
    ];
  };
}
