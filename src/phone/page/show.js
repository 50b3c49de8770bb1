import {make, button, field, fold, list, address, when} from './elements.js';
import {view} from './link.js';
import {photographsOf} from './photographs.js';

const kept = {};

const to = (joint, position) =>
  `#/show/${encodeURIComponent(joint)}` + (position ? `/${position}` : '');

// The drawing that paper has as well; a tap on it opens the position that is nearest.
function map(shown) {
  const drawn = new DOMParser().parseFromString(shown.map, 'text/html').body.firstElementChild;
  if (!drawn) return null;
  const figure = document.importNode(drawn, true);
  const bolts = [...figure.querySelectorAll('circle.bolt')];
  for (const position of shown.chosen) {
    if (bolts[position - 1]) bolts[position - 1].classList.add('here');
  }
  figure.querySelector('svg').addEventListener('click', (event) => {
    const distance = (bolt) => {
      const box = bolt.getBoundingClientRect();
      return Math.hypot(box.x + box.width / 2 - event.clientX, box.y + box.height / 2 - event.clientY);
    };
    const nearest = bolts.map((bolt, i) => [distance(bolt), i + 1]).sort((a, b) => a[0] - b[0])[0];
    if (nearest && nearest[0] < 60) location.hash = to(shown.joint, nearest[1]);
  });
  return figure;
}

function position(shown, one) {
  const found = one.found;
  return [
    found ? make('div', {class: 'result'}, make('p', {class: 'first'}, found.says),
      make('p', {}, found.units)) : make('p', {class: 'result'}, 'Not tested.'),
    make('h2', {}, 'Specified'),
    one.specified.length > 0 ? list(one.specified) : make('p', {}, 'Nothing is specified.'),
    one.says.length > 0 && make('div', {class: 'warn'}, list(one.says)),
    make('h2', {}, 'What was written'),
    make('ul', {}, one.lines.map((line) => make('li', {},
      line.struck ? make('s', {}, `line ${line.line}: ${line.says}`) : `line ${line.line}: ${line.says}`,
      line.struck && !line.struck.as_written && ' This is not what was written.',
      make('span', {class: 'soft'}, ` ${line.by}, ${when(line.done_at)}`))))
  ];
}

export async function show(at) {
  const form = make('form', {submit: (event) => {
    event.preventDefault();
    location.hash = '#/show/' + (kept.at || '').trim().split('/').map(encodeURIComponent).join('/');
  }}, field('Joint or position, such as J06 or J06/3', 'at', kept),
  make('div', {class: 'row'}, make('button', {type: 'submit', 'data-key': 'find'}, 'Look up')));
  if (!at) return () => [make('h1', {}, 'Look up'), form];
  const shown = await view('/api/show?' + new URLSearchParams({at}));
  return () => {
    if (!shown.positions) return [make('h1', {}, at), make('p', {class: 'refused'}, shown.refused), form];
    const one = shown.position;
    const here = shown.chosen.length === 1 ? shown.chosen[0] : null;
    return [
      make('h1', {}, here ? address(shown.joint, here) : shown.joint,
        make('span', {class: 'place'}, ' ' + shown.holds)),
      ...(one ? position(shown, one) : [
        shown.in_short && make('p', {class: 'do'}, shown.in_short),
        make('p', {}, shown.kind),
        make('h2', {}, 'Specified'),
        shown.specified.length > 0 ? list(shown.specified) : make('p', {}, 'Nothing is specified.')]),
      map(shown),
      make('div', {class: 'positions'}, shown.positions.map((each) => make('button', {
        type: 'button', 'data-key': 'p' + each.position,
        'aria-current': shown.chosen.includes(each.position) ? 'true' : null,
        'aria-label': `position ${each.position}` + (each.found ? `, ${each.found.verdict}` : ', not tested'),
        click: () => { location.hash = to(shown.joint, each.position); }
      }, each.position))),
      ...photographsOf(here ? `${shown.joint}/${here}` : shown.joint, shown.photographs),
      make('div', {class: 'row'},
        make('a', {class: 'button', href: '#/teardown/' + encodeURIComponent(shown.joint)}, 'Teardown'),
        make('a', {class: 'button', href: '#/tighten/' + encodeURIComponent(shown.joint)}, 'Tighten')),
      fold('Another one', kept, form)
    ];
  };
}
