import {make, button, field, fold, settle} from './elements.js';
import * as link from './link.js';
import {home, joint} from './home.js';
import {teardown} from './teardown.js';
import {tighten} from './tighten.js';
import {stripe} from './stripe.js';
import {show} from './show.js';
import {photograph, photographs} from './photographs.js';

const main = document.getElementById('main');
const kPages = [['', 'Home'], ['teardown', 'Teardown'], ['tighten', 'Tighten'],
  ['stripe', 'Stripe'], ['show', 'Look up'], ['photographs', 'Photos']];
const kUnder = {joint: '', photograph: 'photographs'};  // what stands under another of them
const asked = {};
let draw = () => [];
let turn = 0;
let lastSaid = '';
let lastJoint = '';
let meanwhile = '';  // why the page shows something else than it did, though nothing was tapped

// "#/teardown/J06": what is asked for by the address of the page.
function route() {
  const [, page = '', ...rest] = location.hash.split('/').map(decodeURIComponent);
  return {page, rest};
}

// A code or a bag label that was scanned with the phone's own camera brings one of these.
function takeScanned() {
  const hash = location.hash.slice(1);
  if (hash.startsWith('pair=')) {
    asked.code = decodeURIComponent(hash.slice(5));
    history.replaceState(null, '', '#/');
  } else if (hash.startsWith('at=')) {
    history.replaceState(null, '',
      '#/show/' + decodeURIComponent(hash.slice(3)).split('/').map(encodeURIComponent).join('/'));
  }
}

function say(text) {
  if (!text || text === lastSaid) return;
  lastSaid = text;
  document.getElementById('said').textContent = text;
}

async function chooseJoint(page) {
  const shown = await link.view('/api/home');
  return () => [make('h1', {}, page === 'teardown' ? 'Teardown' : 'Tighten'),
    shown.refused ? make('p', {class: 'refused'}, shown.refused)
      : make('ul', {class: 'list'}, shown.joints.map((each) => make('li', {}, make('a', {
        class: 'button', href: `#/${page}/${encodeURIComponent(each.joint)}`},
        make('b', {}, each.joint), make('span', {}, each.holds),
        make('span', {class: 'soft'}, `${each.apart} of ${each.count} apart`)))))];
}

async function pageFor({page, rest}) {
  if (rest[0] && ['teardown', 'tighten', 'joint'].includes(page)) lastJoint = rest[0];
  if (page === 'teardown') return rest[0] ? teardown(rest[0], again) : chooseJoint('teardown');
  if (page === 'tighten') return tighten(rest[0] || '', again);
  if (page === 'stripe') return stripe();
  if (page === 'show') return show(rest.join('/') || lastJoint);
  if (page === 'photographs') return photographs(rest.join('/'), again);
  if (page === 'photograph') return photograph(rest[0] || '');
  if (page === 'joint') return joint(rest[0] || '');
  return home();
}

// What a test or a deed came to, above what comes next.
function answered() {
  const answer = link.state.answer;
  if (!answer || (answer.told.length === 0 && answer.remarks.length === 0)) return null;
  const [first, ...rest] = answer.told;
  // What is to be read is not folded away; why a test came to what it did is.
  return make('div', {class: 'result'}, first && make('p', {class: 'first'}, first),
    answer.remarks.map((line) => make('p', {}, 'Note: ' + line)),
    rest.length > 0 && fold('Why', asked, rest.map((line) => make('p', {}, line))));
}

function elsewhere() {
  return meanwhile && make('p', {class: 'warn'}, meanwhile);
}

function lost() {
  return link.state.lost && make('p', {class: 'refused', role: 'alert'}, link.state.lost);
}

function refusal(kept) {
  return make('div', {class: 'refused', role: 'alert'},
    make('p', {}, make('b', {}, kept.says)),
    make('p', {}, 'Not recorded: ' + kept.refused),
    make('p', {}, 'What was tapped after it waits for this.'),
    make('div', {class: 'row'}, button('Try again', () => link.tryAgain(kept)),
      button('Leave it out', () => link.leaveOut(kept))));
}

function pairing() {
  const problem = make('p', {role: 'alert'});
  return [
    make('h1', {}, 'Pair this phone'),
    make('p', {}, 'The terminal shows a code for one phone. Who uses it stands in every line that is tapped here.'),
    link.state.queue.length > 0 &&
      make('p', {class: 'warn'}, `${link.state.queue.length} taps wait here and are sent once it is paired.`),
    make('form', {submit: async (event) => {
      event.preventDefault();
      try {
        const why = await link.pair(asked.code || '', asked.who || '');
        if (why) { problem.textContent = why; return; }
        asked.code = '';
        await load();
      } catch {
        problem.textContent = 'There is no link to the logbook; is the phone in its network?';
      }
    }},
    field('Code', 'code', asked, {autocapitalize: 'characters', required: true}),
    field('Who uses this phone', 'who', asked, {autocapitalize: 'characters', required: true}),
    problem,
    make('button', {type: 'submit', class: 'key', 'data-key': 'pair'}, 'Pair'))
  ];
}

function drawPages(page) {
  document.getElementById('pages').replaceChildren(...kPages.map(([name, label]) => make('a', {
    href: lastJoint && ['teardown', 'tighten'].includes(name)
      ? `#/${name}/${encodeURIComponent(lastJoint)}` : `#/${name}`,
    'aria-current': name === (kUnder[page] === undefined ? page : kUnder[page]) ? 'page' : null}, label)));
}

function drawLink() {
  const bar = document.getElementById('link');
  const waits = link.state.queue.length;
  const {link: how} = link.state;
  bar.className = how === 'down' ? 'down' : '';
  const text = how === 'down'
    ? `No link. ${waits === 0 ? 'What you tap is kept here and sent when it is back.' : waits + ' kept here, sent when it is back.'}`
    : waits > 0 && !link.refused() ? `${waits} being sent` : '';
  if (bar.textContent !== text) bar.textContent = text;
}

const figures = () =>
  [...main.querySelectorAll('.large')].map((each) => each.textContent).join(', ');

// Draws what is known anew; where the thumb or the keyboard was stays where it was.
function render() {
  const focused = document.activeElement && document.activeElement.dataset.key;
  const refused = link.refused();
  drawLink();
  drawPages(route().page);
  const content = link.state.link === 'unpaired' ? pairing()
    : refused ? [refusal(refused)] : [lost(), elsewhere(), answered(), ...draw()];
  const typing = focused && document.activeElement.matches('input[type=text]')
    ? [document.activeElement.selectionStart, document.activeElement.selectionEnd] : null;
  main.replaceChildren(...content.flat().filter(Boolean));
  const same = focused && main.querySelector(`[data-key="${CSS.escape(focused)}"]`);
  if (same) {
    same.focus({preventScroll: true});
    if (typing && same.matches('input[type=text]')) same.setSelectionRange(...typing);
  }
  const heading = main.querySelector('h1');
  const told = main.querySelector('.result .first, .refused');
  say([told && told.textContent, heading && heading.textContent, figures()].filter(Boolean).join('. '));
  if (heading) document.title = heading.textContent + ' - boltwitness';
}

// `anew` where what was chosen on the page asks the logbook something else.
function again(anew = false) {
  if (anew) load();
  else render();
}

async function load() {
  const mine = ++turn;
  const next = await pageFor(route());
  if (mine !== turn) return;  // somebody went on meanwhile
  draw = next;
  render();
}

addEventListener('hashchange', () => {
  takeScanned();
  link.state.answer = null;
  meanwhile = '';
  load().then(() => { main.focus({preventScroll: true}); scrollTo(0, 0); });
});
// Who is about to tap on a step that another phone has done is told, and the tap held up.
async function refresh() {
  const step = () => {
    const heading = main.querySelector('h1');
    return heading && main.querySelector('.key') ? heading.firstChild.textContent : '';
  };
  const before = step();
  const figuresBefore = figures();
  const tapped = link.state.tapped;
  await load();
  const after = step();
  if (tapped !== link.state.tapped) return;  // it was this phone that went on
  if (!before.includes('/') || !after.includes('/')) return;
  if (before === after && (figuresBefore === '' || figuresBefore === figures())) return;
  meanwhile = before === after ? 'What is to be set has changed meanwhile: set it anew.'
    : `${before} was gone on with elsewhere meanwhile: this comes next now.`;
  settle();
  render();
}

link.onChange(() => { meanwhile = ''; render(); });
link.onNewLine(refresh);
takeScanned();
link.open().then(load, () => {
  main.replaceChildren(make('p', {class: 'refused'},
    'This browser keeps no data for this page (a private window?), so that what is tapped could be lost. Open it in an ordinary window.'));
});
