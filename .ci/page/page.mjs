// page.mjs PAGE.html OUT_DIR: opens a page as a file in headless Chromium and holds it to its promises: it asks
// for nothing, logs no error, plays, moves, mutes, steps in silence and obeys the keyboard. Leaves pictures
// in OUT_DIR. Exit 0 when all holds, 1 with one line for each thing that does not.
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const [file, out] = process.argv.slice(2);
fs.mkdirSync(out, { recursive: true });
const url = pathToFileURL(path.resolve(file)).href;
const name = path.basename(path.dirname(path.resolve(file)));
const wrong = [];
const check = (holds, what) => { if (!holds) wrong.push(what); };

const browser = await chromium.launch({
  timeout: 180_000, // a busy machine
  executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--hide-scrollbars', '--no-first-run', '--host-resolver-rules=MAP * ~NOTFOUND'],
});

// open gives a fresh page of a size and scheme, with everything it logs and asks for noted.
async function open(width, height, colorScheme, script = true) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme, javaScriptEnabled: script, serviceWorkers: 'block' });
  context.setDefaultTimeout(120_000);
  const page = await context.newPage();
  page.on('console', (m) => { if (m.type() === 'error' || m.type() === 'warning') wrong.push(`console: ${m.text()}`); });
  page.on('pageerror', (e) => wrong.push(`page error: ${e.message}`));
  page.on('dialog', (d) => { wrong.push(`dialog: ${d.message()}`); d.dismiss(); });
  page.on('request', (r) => { if (r.url() !== url && !r.url().startsWith('data:')) wrong.push(`request: ${r.url()}`); });
  await page.addInitScript(() => { // hear what reaches the loudspeaker
    const connect = AudioNode.prototype.connect;
    window.heard = [];
    AudioNode.prototype.connect = function (to, ...rest) {
      if (to instanceof AudioDestinationNode) {
        const a = this.context.createAnalyser();
        a.fftSize = 2048;
        connect.call(this, a);
        window.heard.push(a);
      }
      return connect.call(this, to, ...rest);
    };
  });
  await page.goto(url);
  return page;
}

const where = (page) => page.locator('#where').textContent();
const said = (page) => page.locator('#said').textContent();
// loudest returns the greatest level heard over a time.
const loudest = (page, ms) => page.evaluate(async (ms) => {
  let peak = 0;
  const end = performance.now() + ms;
  while (performance.now() < end) {
    for (const a of window.heard) {
      const b = new Float32Array(a.fftSize);
      a.getFloatTimeDomainData(b);
      for (const x of b) peak = Math.max(peak, Math.abs(x));
    }
    await new Promise((r) => setTimeout(r, 15));
  }
  return peak;
}, ms);
// Sound runs in its own time, which a busy machine holds up: what comes sooner or later is waited for.
const patience = 30_000;
async function until(holds) {
  for (const end = Date.now() + patience; Date.now() < end;) if (await holds()) return true;
  return holds();
}
const sounds = (page, level = 0.002) => until(async () => await loudest(page, 300) > level);
const quiet = (page) => until(async () => await loudest(page, 500) < 1e-3);
// lit returns where the visible sounding places stand.
const lit = (page) => page.evaluate(() => [...document.querySelectorAll('.now.on')].filter((e) => e.getClientRects().length)
  .map((e) => `${e.closest('svg').dataset.from}:${e.dataset.row}@${(+e.getAttribute('x')).toFixed(1)}`).join(' '));

async function playing() {
  const page = await open(1440, 900, 'light');
  check(await page.locator('#volume').inputValue() === '40', 'the volume does not start at 40');
  check((await page.locator('#quiet').textContent()).includes('moderate'), 'it does not say that it starts at a moderate volume');
  check(await page.locator('.together >> visible=true').count() === 0, 'the composite shows before it is asked for');
  check(await page.evaluate(() => window.heard.length === 0), 'sound is set up before anybody asked for it');
  const start = await where(page);
  await page.click('#play');
  check(await page.locator('#play').textContent() === 'Pause', 'the button does not say Pause while it plays');
  check(await sounds(page, 0.005), 'nothing is heard');
  const level = await loudest(page, 700);
  check(level < 0.5, `the level is ${level}: not moderate`);
  const places = new Set();
  await until(async () => places.add(await lit(page)).size > 5);
  check(places.size > 5, `the sounding place moved only ${places.size} times`);
  check(await where(page) !== start, 'the place in words does not move');
  check(await page.locator('circle.on').count() > 0, 'no clock shows where it is');

  await page.locator('#loop').check(); // it goes on however long this takes
  const silent = page.locator('#mix > :not([hidden]) button[id^=silent]');
  for (let i = 0; i < await silent.count(); i++) await silent.nth(i).click();
  check(await quiet(page), 'silent layers sound');
  check(await silent.first().getAttribute('aria-pressed') === 'true', 'a pressed button does not say so');
  await silent.first().click();
  check(await sounds(page), 'a layer that is no more silent does not sound');
  await page.locator('#side0').selectOption('-1');
  await silent.first().click();
  check(await quiet(page), 'silent layers sound without the click');
  await page.locator('#click').check();
  check(await sounds(page), 'the click does not sound');
  await page.locator('#tempo').fill('150');
  check((await page.locator('#rate').textContent()).startsWith('150'), 'the tempo is not told');
  await page.evaluate(() => document.activeElement.blur());
  await page.keyboard.press('Space');
  check(await page.locator('#play').textContent() === 'Play', 'the space bar does not pause');
  const stopped = await where(page);
  check(await quiet(page), 'it sounds while it pauses');
  check(await where(page) === stopped, 'it moves on while it pauses');
  await page.context().close();
}

// A loop ends after it begins.
async function offering() {
  const page = await open(1440, 900, 'light');
  const options = (which) => page.locator(`${which} option`).evaluateAll((all) => all.filter((o) => !o.disabled).map((o) => [o.textContent, +o.value]));
  const begins = await options('#from'), [from] = begins, [to] = await options('#to');
  check(to && to[1] > from[1], 'there is nothing to loop between');
  const ends = (await options('#to')).map((o) => o[1]);
  check(new Set(ends).size === ends.length, 'two ends of a loop are one place');
  await page.locator('#from').selectOption({ index: begins.length - 1 });
  check((await options('#to')).every((o) => o[1] > begins.at(-1)[1]), 'a loop may end before it begins');
  check(+await page.locator('#to').inputValue() > begins.at(-1)[1], 'the loop ends before it begins');
  await page.context().close();
}

async function stepping() {
  const page = await open(1440, 900, 'light');
  const start = await where(page);
  await page.keyboard.press('ArrowRight');
  const second = await where(page), words = await said(page);
  check(second !== start, 'an arrow key does not step');
  check(/cycle 2/.test(words), `the step is not told: ${words}`);
  check(await page.evaluate(() => window.heard.length === 0), 'stepping is not silent');
  await page.keyboard.press('ArrowLeft');
  check(await where(page) === start, 'an arrow key does not step back');
  await page.keyboard.press('Shift+ArrowRight');
  const met = await where(page);
  check(met !== start, 'Shift and an arrow key do not go to a realignment');
  await page.screenshot({ path: path.join(out, `${name}-realignment.png`) });
  await page.keyboard.press('Home');
  check(await where(page) === start, 'Home does not go to the start');
  await page.keyboard.press('c');
  check(await page.locator('.together >> visible=true').count() > 0, 'c does not show the composite');
  check(await page.locator('#composite').getAttribute('aria-pressed') === 'true', 'the button does not say that the composite shows');
  await page.screenshot({ path: path.join(out, `${name}-composite.png`), fullPage: true });
  await page.keyboard.press('c');
  check(await page.locator('.together >> visible=true').count() === 0, 'c does not hide the composite');
  const reached = new Set();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    reached.add(await page.evaluate(() => document.activeElement.id));
  }
  for (const id of ['play', 'back', 'on', 'meet', 'home', 'bar', 'wall', 'tempo', 'volume', 'loop', 'from', 'to', 'bars', 'click', 'countin', 'by', 'composite', 'print', 'keys', 'alone0', 'silent0', 'side0']) {
    check(reached.has(id), `the Tab key does not reach ${id}`);
  }
  const nameless = await page.evaluate(() => [...document.querySelectorAll('button, input, select, svg[role=img]')]
    .filter((e) => !(e.getAttribute('aria-label') || (e.labels && e.labels.length) || e.textContent.trim())).map((e) => e.outerHTML.slice(0, 80)));
  check(nameless.length === 0, `without a name: ${nameless.join(' | ')}`);
  await page.context().close();
}

// Going anywhere: a click on figure, table and chart, a bar's number, the Enter key; bars that are dragged over loop.
async function visiting() {
  const page = await open(1440, 900, 'light');
  const grid = JSON.parse(await page.locator('#score').textContent());
  const first = grid.sections[0].readings[0].first;
  await page.keyboard.press('Shift+ArrowRight');
  await page.fill('#bar', String(first));
  await page.press('#bar', 'Enter');
  check((await where(page)).includes(`bar ${first} beat 1`), 'a typed bar is not gone to');
  await page.fill('#bar', '123456');
  await page.press('#bar', 'Enter');
  check(/^bars go from \d+ to \d+$/.test(await said(page)), 'a bar that is not there is not told');
  const line = page.locator('.systems:not(.both) .wide svg.figure').last();
  await line.scrollIntoViewIfNeeded();
  const at = async (share) => { // a point of the line, as far along as said
    const [box, view] = [await line.boundingBox(), await line.evaluate((e) => [+e.dataset.left, +e.dataset.width, e.viewBox.baseVal.width])];
    return [box.x + ((view[0] + share * view[1]) / view[2]) * box.width, box.y + box.height * 0.6];
  };
  await page.click('#home');
  await line.scrollIntoViewIfNeeded();
  await page.mouse.click(...await at(0.02));
  const begins = await where(page);
  const system = page.locator('.systems:not(.both) > .system.wide').last();
  await page.click('#home');
  await system.focus();
  await page.keyboard.press('Enter');
  check(await where(page) === begins, `Enter on a line goes to ${await where(page)}, a click at its start to ${begins}`);
  await page.mouse.move(...await at(0.05));
  await page.mouse.down();
  await page.mouse.move(...await at(0.3), { steps: 4 });
  await page.mouse.up();
  check(await page.locator('#loop').isChecked() && /^\d+(-\d+)?$/.test(await page.locator('#bars').inputValue()), 'bars that are dragged over do not loop');
  check(await page.locator('.chosen').count() > 0, 'what loops is not shown');
  const go = page.locator('tr[data-index] .go').last();
  const place = await go.innerText();
  await go.click();
  check(/before/.test(place) || (await where(page)).endsWith(place.replace(/[^\d]+$/, '')), `a row of the drift table goes to ${await where(page)}, not ${place}`);
  await page.locator('.part > .chart summary').first().click();
  const pre = page.locator('.part > .chart pre').first();
  const spot = await pre.evaluate((e) => { // over the second barline of the first count
    const lines = e.textContent.split('\n'), row = lines.findIndex((l) => l.startsWith('count')), bar = lines[row].indexOf('|');
    const range = document.createRange();
    const offset = lines.slice(0, row).join('\n').length + 1 + bar + 2;
    range.setStart(e.firstChild, offset);
    range.setEnd(e.firstChild, offset + 1);
    e.scrollIntoView();
    const box = range.getBoundingClientRect();
    return [box.left + 1, box.top + box.height / 2];
  });
  await page.mouse.click(...spot);
  check((await where(page)).includes(`bar ${first} beat 1`), 'a click on the chart does not go to its bar');

  await page.setViewportSize({ width: 1920, height: 1080 });
  await page.evaluate(() => document.activeElement.blur());
  await page.keyboard.press('w');
  const large = await page.evaluate(() => ['wallwhere', 'wallcounts'].map((id) => parseFloat(getComputedStyle(document.getElementById(id)).fontSize)));
  check(Math.min(...large) >= 43, `on the wall letters are ${large.join(' and ')} px high`);
  check(await page.locator('#wallfigure svg.figure >> visible=true').count() === 1, 'on the wall there is no figure');
  const counts = await page.locator('#wallcounts').innerText();
  check(/1 of \d/.test(counts) || grid.sections[0].layers.every((l) => !l.cycles.length || l.cycles[0][0] !== 0), `on the wall the counts are ${counts}`);
  await page.screenshot({ path: path.join(out, `${name}-wall.png`) });
  await page.keyboard.press('Escape');
  check(await page.locator('#wallview').isHidden() && await page.locator('#wallfigure svg').count() === 0, 'Escape does not leave the wall');
  await page.context().close();
}

// Going along: the line that sounds and its rows of the table come into view, unless motion is not wanted.
async function following() {
  for (const reducedMotion of ['no-preference', 'reduce']) {
    const page = await open(1440, 500, 'light');
    await page.emulateMedia({ reducedMotion });
    await page.evaluate(() => scrollTo(0, 0));
    const inView = (at) => page.evaluate((at) => {
      const e = [...document.querySelectorAll(at)].find((x) => x.getClientRects().length), box = e.getBoundingClientRect();
      return box.bottom > 0 && box.top < innerHeight;
    }, at);
    const before = await inView('.now.on');
    await page.evaluate(() => { document.getElementById('play').click(); document.getElementById('play').click(); document.getElementById('play').click(); });
    check(await until(async () => await page.locator('#play').textContent() === 'Pause'), 'quick presses do not begin to play');
    await sounds(page);
    if (reducedMotion === 'reduce') check(await page.evaluate(() => scrollY === 0), 'the page moves by itself though no motion is wanted');
    else check(before || await until(() => inView('.now.on')), 'the line that sounds is out of view');
    await page.click('#play');
    check(await page.locator('#play').textContent() === 'Play', 'it does not pause');
    check(await quiet(page), 'something goes on sounding after quick presses and a pause');
    for (let i = 0; i < 12; i++) await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('ArrowLeft');
    const row = await page.evaluate(() => {
      const tr = [...document.querySelectorAll('tr.current')].pop();
      if (!tr) return true; // a long table has the first cycles only
      const box = tr.closest('.scroll').getBoundingClientRect(), own = tr.getBoundingClientRect();
      return own.top >= box.top - 1 && own.bottom <= box.bottom + 1;
    });
    check(row, 'the current row of the drift table is out of sight in its box');
    const here = await where(page);
    await page.locator('.scroll').last().focus();
    await page.keyboard.press('Home');
    check(await where(page) === here, 'keys that scroll a table move the place');
    await page.locator('#keys').uncheck();
    await page.evaluate(() => document.activeElement.blur());
    await page.keyboard.press('c');
    check(await page.locator('.together >> visible=true').count() === 0, 'keys that are switched off work');
    await page.context().close();
  }
}

async function looks() {
  for (const [width, scheme] of [[1440, 'light'], [1440, 'dark'], [901, 'light'], [768, 'light'], [360, 'light'], [360, 'dark']]) {
    const page = await open(width, 900, scheme);
    check(await page.locator('#quiet').isVisible(), `at ${width} px it does not say how loud it starts`);
    await page.evaluate(() => { document.getElementById('more').open = document.getElementById('rec').open = true; document.getElementById('reccontrols').hidden = false; });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    check(over <= 0, `at ${width} px it is ${over} px too wide`);
    const beyond = await page.evaluate(() => [...document.querySelectorAll('button, input, select')]
      .filter((e) => !e.closest('.scroll') && e.getBoundingClientRect().right > innerWidth).map((e) => e.id));
    check(beyond.length === 0, `at ${width} px out of the window: ${beyond.join(' ')}`);
    const small = await page.evaluate(() => [...document.querySelectorAll('button, input, select, summary')].filter((e) => !e.closest('[hidden]')).map((e) => {
      const box = (e.closest('label') || e).getBoundingClientRect();
      return [e.id || e.tagName, Math.min(box.width, box.height)];
    }).filter(([, size]) => size < 24)); // WCAG 2.2, 2.5.8
    check(small.length === 0, `at ${width} px too small to touch: ${small.join(' ')}`);
    const letters = await page.evaluate(() => Math.min(...[...document.querySelectorAll('svg.figure')].filter((e) => e.getClientRects().length)
      .map((e) => (11 * e.getBoundingClientRect().width) / e.viewBox.baseVal.width)));
    check(letters > 9, `at ${width} px the figure's small letters are ${letters.toFixed(1)} px high`);
    await page.addStyleTag({ content: '.system { content-visibility: visible !important; }' }); // for the picture only
    await page.screenshot({ path: path.join(out, `${name}-${width}-${scheme}.png`), fullPage: true });
    await page.context().close();
  }
  const page = await open(1440, 900, 'dark');
  const sections = await page.locator('section.part').count();
  await page.emulateMedia({ media: 'print' });
  const pdf = await page.pdf({ path: path.join(out, `${name}.pdf`), preferCSSPageSize: true, printBackground: true });
  const sheets = (pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) || []).length;
  check(sheets >= sections, `${sections} sections print on ${sheets} sheets`);
  const printed = await page.evaluate(() => [...document.querySelectorAll('.sheet')].map((sheet, i) => {
    const shown = document.querySelector(`#section${i} > .chart pre`);
    return !shown || sheet.textContent.replace(/\s+/g, '').includes(shown.textContent.replace(/\s+/g, ''));
  }));
  check(printed.every(Boolean), 'the whole chart is not printed');
  await page.setViewportSize({ width: 718, height: 1047 }); // A4 less its margins
  await page.screenshot({ path: path.join(out, `${name}-print.png`), fullPage: true });
  await page.context().close();
  const enlarged = await open(320, 256, 'light'); // 1280 by 1024 at four times the size (WCAG 2.2, 1.4.10)
  check(await enlarged.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'enlarged four times it has to be scrolled sideways');
  await enlarged.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  check(await enlarged.evaluate(() => document.querySelector('.main').getBoundingClientRect().bottom) < 100, 'enlarged four times the bar hides what is read');
  await enlarged.context().close();
  const forced = await open(1440, 900, 'dark'); // the reader's own colors
  await forced.emulateMedia({ forcedColors: 'active' });
  const pressed = () => forced.locator('#composite').evaluate((e) => [getComputedStyle(e).color, getComputedStyle(e).backgroundColor, getComputedStyle(e).borderColor].join());
  const loose = await pressed();
  await forced.click('#composite');
  check(await pressed() !== loose, 'with forced colors a pressed button looks like any other');
  const canvas = await forced.evaluate(() => [...document.querySelectorAll('svg .beam')].map((e) => getComputedStyle(e).stroke).filter((c, i, all) => all.indexOf(c) === i)
    .concat(getComputedStyle(document.body).color));
  check(canvas.every((c) => c === canvas[0]), `with forced colors the figure keeps its own: ${canvas.join(' ')}`);
  await forced.context().close();
  const plain = await open(1000, 900, 'light', false);
  check(await plain.locator('svg.figure >> visible=true').count() > 0, 'without scripts there are no figures');
  await plain.context().close();
}

try {
  for (const part of [playing, offering, stepping, visiting, following, looks]) await part();
} finally {
  await browser.close();
}
for (const line of wrong) console.log(`${file}: ${line}`);
console.log(wrong.length ? `${wrong.length} things do not hold` : `${file}: plays, moves, mutes, steps; nothing asked for`);
process.exit(wrong.length ? 1 : 0);
