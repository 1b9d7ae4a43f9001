// lesson.mjs TIEOVER DIR OUT: builds pages into DIR that can be felt in other bars and that have loops cut and whole,
// and holds them to what is worked out here by hand: what is clicked, counted in, struck, heard, drawn and told; by
// keyboard, on a phone, in print, without motion, and under an accessibility checker. Pictures into OUT.
import fs from 'node:fs';
import path from 'node:path';
import { execFileSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const [tieover, dir, out] = process.argv.slice(2);
const here = path.dirname(fileURLToPath(import.meta.url));
const wrong = [];
const check = (holds, what) => { if (!holds) wrong.push(what); };
const same = (got, want, what) => check(JSON.stringify(got) === JSON.stringify(want), `${what}: ${JSON.stringify(got)}, it should be ${JSON.stringify(want)}`);

// Two loops in 5/4 at quarter = 132, 12 bars. Gate's long groups first are 3+3+2+2: its downbeat is felt 7 eighths in, and
// bar 0 lacks 3 eighths. Wharf, 12 eighths, is cut every 4 bars (40 eighths) after 4 of its 12, so it parts from the whole
// loop at bar 5; 120 eighths are ten of its cycles and three spans of 4 bars, so they meet where the section ends.
fs.mkdirSync(path.join(dir, 'lesson'), { recursive: true });
const spec = path.join(dir, 'lesson', 'gates.yaml');
fs.writeFileSync(spec, 'title: Two Gates\ntempo: 132\nmeter: 5/4\nlength: 12 bars\nlayers:\n'
  + '  - {name: Gate, groups: 3+2+2+3}\n  - {name: Wharf, groups: 3+3+2+2+2}\n');
execFileSync(tieover, ['build', spec, '--only', 'page', '--cut', '4', '-o', path.join(dir, 'lesson')]);
const url = pathToFileURL(path.resolve(dir, 'lesson', 'page.html')).href;
const eighth = 60 / 132 / 2, lead = 0.06;

const browser = await chromium.launch({ timeout: 180_000, executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
async function open(options = {}, card = true) {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options })).newPage();
  page.setDefaultTimeout(120_000);
  page.on('pageerror', (e) => wrong.push(`page error: ${e.message}`));
  page.on('console', (m) => { if (m.type() === 'error') wrong.push(`console: ${m.text()}`); });
  if (card) await page.addInitScript({ path: path.join(here, 'clock.js') });
  await page.goto(url);
  return page;
}
const text = (page, id) => page.locator(`#${id}`).textContent();
const go = (page, s) => page.evaluate((s) => card.go(s), s);
const inEighths = (list, from) => list.map((s) => Math.round(((s - from) / eighth) * 1e6) / 1e6);
// clicked lists the clicks so far: when, and whether it is a downbeat's.
const clicked = (page) => page.evaluate(() => card.sources
  .filter((s) => { for (let p = s; p; p = p.to[0]) if (p.kind === 'side') return false; return s.kind === 'tone'; })
  .map((s) => [s.at, s.frequency.value === 1760]).sort((a, b) => a[0] - b[0]));
const set = (page, id, value) => page.evaluate(([id, value]) => {
  const e = document.getElementById(id);
  if (e.type === 'checkbox') e.checked = value; else e.value = value;
  e.dispatchEvent(new Event('change', { bubbles: true }));
}, [id, value]);
const said = { felt: 'bars as felt from Gate, 3+3+2+2', written: 'bars as written' };

async function felt() {
  const page = await open();
  await page.keyboard.press('f');
  same(await text(page, 'said'), said.felt, 'f tells');
  same(await text(page, 'where'), 'bar 0 beat 2', 'the start is felt at');
  await set(page, 'click', true);
  await page.evaluate(() => document.getElementById('play').click());
  await go(page, lead + 18.5 * eighth);
  // Bar 0 has beats 3, 4 and 5, at 1, 3 and 5 eighths; bar 1 begins at 7, bar 2 at 17.
  const clicks = await clicked(page);
  same(inEighths(clicks.map((c) => c[0]), lead).filter((t) => t <= 18), [1, 3, 5, 7, 9, 11, 13, 15, 17], 'felt clicks');
  same(inEighths(clicks.filter((c) => c[1]).map((c) => c[0]), lead).filter((t) => t <= 18), [7, 17], 'felt downbeats');
  same(await text(page, 'where'), 'bar 2 beat 1', 'after 18.5 eighths it is');
  const struck = (await page.evaluate(() => card.struck())).filter((s) => s.side !== null && s.heard);
  same(inEighths(struck.map((s) => s.at), lead).filter((t) => t < 8), [0, 0, 3, 3, 5, 6, 7], 'what sounds stays');
  await page.evaluate(() => document.getElementById('play').click());

  // Places and tables say both; typed bars are the felt ones.
  same(await page.locator('.beside tr[data-at] .go').first().innerText(), 'bar 6 beat 2½, written bar 7 beat 1', 'the realignment is felt at');
  await page.fill('#bar', '1');
  await page.press('#bar', 'Enter');
  same(await text(page, 'where'), 'bar 1 beat 1', 'going to bar 1');
  await page.fill('#bar', '-1');
  await page.press('#bar', 'Enter');
  same(await text(page, 'said'), 'bars go from 0 to 12', 'a bar that is not there');
  await page.fill('#bars', '0-1');
  await page.press('#bars', 'Enter');
  same(await text(page, 'said'), 'bars 0 to 1 loop', 'felt bars loop');
  same(await page.evaluate(() => [+document.getElementById('from').value, +document.getElementById('to').value]), await page.evaluate(() => {
    const { grid } = JSON.parse(document.getElementById('score').textContent);
    return [0, (17 * grid) / 8];
  }), 'they loop from and to');
  await set(page, 'loop', false);

  // Back, with the same key.
  await page.locator('body').click({ position: { x: 3, y: 3 } });
  await page.keyboard.press('Home');
  await page.keyboard.press('f');
  same(await text(page, 'said'), said.written, 'f goes back');
  same(await text(page, 'where'), 'bar 1 beat 1', 'the start is written at');
  same(await page.locator('.beside tr[data-at] .go').first().innerText(), 'bar 7 beat 1', 'the realignment is written at');
  same(await page.locator('svg.figure [data-reading="1"]:visible').count(), 0, 'felt barlines that still show');
  await page.uncheck('#keys');
  await page.keyboard.press('f');
  same(await text(page, 'where'), 'bar 1 beat 1', 'with the keys off, f does');
  await page.context().close();
}

// A bar's count-in before felt bar 0: one whole bar of five, and the beats 1 and 2 that bar 0 lacks, 3 and 1 eighths before it.
async function countIn() {
  const page = await open();
  await set(page, 'felt', 'felt from Gate, 3+3+2+2');
  await set(page, 'countin', '1');
  await page.evaluate(() => document.getElementById('play').click());
  await go(page, lead + 14 * eighth);
  same(inEighths((await clicked(page)).map((c) => c[0]), lead + 13 * eighth), [-13, -11, -9, -7, -5, -3, -1], 'the count-in');
  same(inEighths((await clicked(page)).filter((c) => c[1]).map((c) => c[0]), lead + 13 * eighth), [-13, -3], 'its downbeats');
  const first = (await page.evaluate(() => card.struck())).find((s) => s.side !== null);
  same(inEighths([first.at], lead), [13], 'the first attack after it');
  await page.context().close();
}

const wharf = [0, 3, 6, 8, 10];
const whole = [...Array(10).keys()].flatMap((k) => wharf.map((g) => 12 * k + g));
const cut = [0, 40, 80].flatMap((from) => [...Array(4).keys()].flatMap((k) => wharf.map((g) => 12 * k + g)).filter((t) => t < 40).map((t) => from + t));
const gate = [...Array(12).keys()].flatMap((k) => [0, 3, 5, 7].map((g) => 10 * k + g));
const rising = (...lists) => lists.flat().sort((a, b) => a - b);

async function heard() {
  for (const [choice, want] of [['', rising(gate, whole)], ['cut', rising(gate, cut)], ['whole', rising(gate, whole)], ['both', rising(gate, whole, cut)]]) {
    const page = await open();
    await set(page, 'versions', choice);
    await page.evaluate(() => document.getElementById('play').click());
    await go(page, lead + 125 * eighth);
    const struck = (await page.evaluate(() => card.struck())).filter((s) => s.side !== null && s.heard);
    same(inEighths(struck.map((s) => s.at), lead), want, `loops "${choice}" sound`);
    if (choice === 'both') {
      const sides = [...new Set(struck.map((s) => s.side))].sort((a, b) => a - b);
      check(sides.includes(-1) && sides.includes(1), `both versions come from ${sides}, the cut one should be left and the whole one right`);
      same(inEighths(struck.filter((s) => s.side === -1).map((s) => s.at), lead), cut, 'from the left');
      same(inEighths(struck.filter((s) => s.side === 1).map((s) => s.at), lead), whole, 'from the right');
    }
    await page.context().close();
  }
}

async function versions() {
  const page = await open({}, false);
  check(!await page.locator('.versions').first().isVisible(), 'both versions are shown before they are asked for');
  const before = await page.evaluate(() => scrollY);
  await page.keyboard.press('v');
  same(await text(page, 'said'), 'loops cut and whole; the cut ones sound on the left, the whole ones on the right', 'v tells');
  same(await page.evaluate(() => scrollY), before, 'the page scrolls to');
  const rows = await page.locator('.versions tbody tr').evaluateAll((all) => all.map((tr) => [...tr.cells].map((c) => c.innerText.trim()).join(' | ')));
  same(rows, ['Wharf | parts | bar 5 beat 1 | 9.1 s | the whole loop 4 of 12 pulses in', 'Wharf | meets | the end of bar 12 | 27.3 s | where the section ends'], 'the moments');
  const notes = await page.locator('.versions .wide svg.figure .note').allTextContents();
  check(notes.some((t) => t.includes('parts')) && notes.some((t) => t.includes('meets')), `the figure marks ${notes}`);
  same(await page.locator('.versions .wide svg.figure').first().locator('.name').allTextContents(), ['Wharf', 'Wharf, cut'], 'its rows');
  await page.locator('.versions tr .go').first().click();
  same(await text(page, 'where'), 'bar 5 beat 1', 'a click on where they part goes to');
  const line = page.locator('.versions .system.wide').nth(2);
  await line.focus();
  await page.keyboard.press('Enter');
  check((await text(page, 'where')).startsWith('bar 7 '), `Enter on the third line goes to ${await text(page, 'where')}`);
  check(await page.locator('.versions svg.figure .now.on').count() >= 2, 'the sounding place is not shown in both versions');
  check(await page.locator('.versions details pre').textContent().then((t) => t.includes('Wharf, cut') && t.includes('Wharf parts at bar 5 beat 1')), 'the chart of both versions lacks them');
  await page.keyboard.press('f');
  same(await page.locator('.versions tr .go').first().innerText(), 'bar 4 beat 2½, written bar 5 beat 1', 'in felt bars they part at');
  await page.keyboard.press('w');
  same(await page.locator('#wallfigure .letter:visible').allTextContents(), ['b', 'b′'], 'on the wall');
  same((await page.locator('#wallcounts li').allTextContents()).map((t) => t.replace(/ [0-9–].*/, '')), ['a', 'b whole', 'b′ cut'], 'the wall counts');
  await page.screenshot({ path: path.join(out, 'lesson-wall.png') });
  await page.keyboard.press('Escape');
  await page.keyboard.press('v');
  check(!await page.locator('.versions').first().isVisible(), 'v does not go back');
  same(await page.locator('#mix li:visible bdi').allTextContents(), ['Gate', 'Wharf'], 'layers to mix');
  await page.context().close();
}

// On a phone, in the dark, in print, and under the accessibility checker, with both switches on.
async function looks() {
  const checker = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  for (const width of [390, 1440]) {
    for (const colorScheme of ['light', 'dark']) {
      const page = await open({ viewport: { width, height: 900 }, colorScheme, reducedMotion: 'reduce', bypassCSP: true, hasTouch: width < 400 }, false);
      await page.evaluate(() => { document.getElementById('more').open = true; });
      await page.selectOption('#felt', { index: 1 });
      await page.selectOption('#versions', 'both');
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      check(wide <= 0, `${width} px: the page is ${wide} px wider than the window`);
      for (const id of ['felt', 'versions']) {
        const box = await page.locator(`#${id}`).boundingBox();
        check(box.height >= (width < 400 ? 44 : 24), `${width} px: #${id} is ${box.height} px high`);
      }
      await page.evaluate(checker);
      for (const v of (await page.evaluate(() => axe.run())).violations) wrong.push(`${width} px, ${colorScheme}: ${v.help}: ${v.nodes[0].html.slice(0, 160)}`);
      await page.screenshot({ path: path.join(out, `lesson-${width}-${colorScheme}.png`), fullPage: true });
      await page.evaluate(() => document.getElementById('play').click());
      await page.waitForTimeout(1500);
      same(await page.evaluate(() => scrollY), 0, `${width} px: without motion it scrolls to`);
      await page.context().close();
    }
  }
  const page = await open({}, false);
  await page.keyboard.press('f');
  await page.keyboard.press('v');
  await page.emulateMedia({ media: 'print' });
  check(await page.locator('.sheet [data-reading="1"]:visible').count() > 0, 'felt bars are not printed');
  same(await page.locator('.sheet svg [data-reading="0"]:visible').count(), 0, 'written barlines that are printed too');
  check(await page.locator('.sheet .versions').first().isVisible(), 'both versions are not printed');
  await page.pdf({ path: path.join(out, 'lesson.pdf'), preferCSSPageSize: true });
  await page.context().close();
}

try {
  fs.mkdirSync(out, { recursive: true });
  for (const part of [felt, countIn, heard, versions, looks]) await part();
} finally {
  await browser.close();
}
for (const line of wrong) console.log(`lesson: ${line}`);
console.log(wrong.length ? `${wrong.length} things do not hold` : 'lesson: felt bars and cut loops are what they should be');
process.exit(wrong.length ? 1 : 0);
