// player.mjs PAGE.html REPORT.json: holds the player of a page to the report of the same spec, on a sound card whose
// clock is turned by hand: what is struck and when, loops, pauses, tempo, who is heard and from where, what is told.
// Exit 0 when all holds, 1 with one line for each thing that does not.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const [file, reported] = process.argv.slice(2);
const url = pathToFileURL(path.resolve(file)).href;
const report = JSON.parse(fs.readFileSync(reported, 'utf8'));
const clock = path.join(path.dirname(fileURLToPath(import.meta.url)), 'clock.js');
const wrong = [];
const check = (holds, what) => { if (!holds) wrong.push(what); };

const number = (f) => { const [n, d] = f.split('/'); return +n / +(d ?? 1); };
const tempos = report.tempos.map((t) => [number(t.time), number(t.quarters)]);
// seconds is when a moment in whole notes sounds, at the written tempo.
const seconds = (t) => tempos.reduce((sum, [at, quarters], i) => {
  const until = i + 1 < tempos.length ? Math.min(t, tempos[i + 1][0]) : t;
  return until > at ? sum + ((until - at) * 240) / quarters : sum;
}, 0);
const onsets = report.layers.flatMap((l) => l.attacks.map((a) => seconds(number(a.onset)))).sort((a, b) => a - b);
const times = report.end === 'repeat' ? 2 : 1;
const lasts = seconds(number(report.length)); // of a repeated section: it ends with a bar
// near compares two rising lists of seconds.
const near = (want, got, what) => {
  const off = want.findIndex((t, i) => !(Math.abs(t - got[i]) < 1e-6));
  if (off >= 0) wrong.push(`${what}: attack ${off + 1} at ${got[off]} s, it belongs at ${want[off]} s`);
  else if (want.length !== got.length) wrong.push(`${what}: ${got.length} attacks, there should be ${want.length}`);
};

const browser = await chromium.launch({
  timeout: 180_000, // a busy machine
  executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--host-resolver-rules=MAP * ~NOTFOUND'],
});

async function open() {
  const page = await (await browser.newContext()).newPage();
  page.on('pageerror', (e) => wrong.push(`page error: ${e.message}`));
  await page.addInitScript({ path: clock });
  await page.goto(url);
  const p = {
    page,
    press: async (id) => { await page.evaluate((id) => document.getElementById(id).click(), id); await page.evaluate(() => null); },
    set: (id, value) => page.evaluate(([id, value]) => {
      const e = document.getElementById(id);
      if (e.type === 'checkbox') e.checked = value; else e.value = value;
      for (const what of ['input', 'change']) e.dispatchEvent(new Event(what, { bubbles: true }));
    }, [id, value]),
    go: (s, by) => page.evaluate(([s, by]) => card.go(s, by), [s, by]),
    key: (key) => page.keyboard.press(key),
    struck: () => page.evaluate(() => card.struck()),
    text: (id) => page.locator(`#${id}`).textContent(),
    options: (id) => page.locator(`#${id} option`).evaluateAll((all) => all.map((o) => +o.value)),
    close: () => page.context().close(),
  };
  return p;
}
// began returns the onsets of what was struck, from when the first attack was to sound.
const began = (struck, from) => struck.filter((s) => s.side !== null).map((s) => s.at - from);
const lead = 0.06; // seconds between pressing Play and the first moment

async function throughout() {
  const p = await open();
  await p.press('play');
  await p.go(lasts * times + 30);
  check(await p.text('play') === 'Play', 'it does not stop at the end');
  const struck = await p.struck();
  near(Array(times).fill(0).flatMap((_, n) => onsets.map((t) => t + n * lasts)), began(struck, lead), 'playing through');
  check(struck.every((s) => s.cut === undefined), 'the last sounds are cut off at the end');
  await p.close();
}

async function pausing() {
  const p = await open();
  await p.press('play');
  const pauses = [0.05, 0.21, 0.33, 0.4, 0.777];
  for (const s of pauses) { // pause and go on, again and again
    await p.go(lead + s, 0.01);
    await p.press('play');
    await p.go(0.5);
    await p.press('play');
  }
  const played = pauses.reduce((a, b) => a + b, 0), goOn = await p.page.evaluate(() => card.now);
  await p.go(2);
  const struck = await p.struck();
  const until = played + 2 - lead;
  const want = onsets.filter((t) => t < until - 0.01);
  check(struck.filter((s) => s.side !== null && s.at < goOn + 2 - 0.01).length === want.length,
    `with pauses ${struck.length} attacks are struck, there should be ${want.length}`);
  await p.close();
}

async function tempo() {
  const p = await open();
  await p.press('play');
  await p.go(lead + 0.01, 0.01);
  let at = 0.01, now = lead + 0.01;
  const starts = [];
  for (let percent = 100; percent >= 50; percent -= 2) { // the slider is dragged
    await p.set('tempo', percent);
    starts.push([now, at, percent / 100]);
    await p.go(0.07, 0.01);
    now += 0.07;
    at += 0.07 * (percent / 100);
  }
  await p.go(3);
  const realOf = (t) => { const [n, a, r] = starts.filter((s) => s[1] <= t + 1e-9).pop() ?? [lead, 0, 1]; return n + (t - a) / r; };
  const struck = await p.struck();
  near(onsets.map(realOf).filter((t) => t < now + 3), struck.map((s) => s.at).filter((t) => t < now + 3), 'while the tempo is dragged');
  check(struck.every((s) => s.cut === undefined), 'what sounds is cut off by another tempo');
  await p.close();
}

async function looping() {
  const p = await open();
  const grid = JSON.parse(await p.text('score')).grid;
  const from = (await p.options('from')).filter((v) => v < number(report.length) * grid).at(-1); // the last of the first time through
  const end = (await p.options('to')).find((v) => v > from);
  const [a, b] = [seconds(from / grid), seconds(end / grid)];
  await p.set('from', String(from));
  await p.set('to', String(end));
  await p.set('loop', true);
  await p.press('play');
  const rounds = 3, each = b - a;
  await p.go(lead + rounds * each - 0.02);
  const inside = onsets.filter((t) => t >= a - 1e-9 && t < b - 1e-9).map((t) => t - a);
  const want = [0, 1, 2].flatMap((n) => inside.map((t) => t + n * each));
  const struck = (await p.struck()).filter((s) => s.at < lead + rounds * each - 1e-6);
  near(want, began(struck, lead), 'three rounds of a loop');
  check(await p.text('play') === 'Pause', 'the loop ends');
  await p.close();
}

// A bar counted in: its beats are clicked first, and the music begins when they are over.
async function countingIn() {
  const p = await open();
  await p.set('countin', '1');
  await p.press('play');
  const score = JSON.parse(await p.text('score')), s = score.sections[0], kind = s.readings[0].bars[0][1];
  const at = (t) => ((t / score.grid) * 240) / tempos[0][1]; // all at the first tempo
  const bar = at(s.lengths[kind]);
  check(await p.text('where') === 'counting in', 'it does not say that it counts in');
  await p.go(lead + bar + 1);
  const struck = await p.struck();
  near(s.meters[kind].map(at), struck.filter((e) => e.side === null).map((e) => e.at - lead), 'the count-in');
  const early = (t) => t < 0.9 - 1e-6;
  near(onsets.filter(early), began(struck, lead + bar).filter(early), 'after the count-in');
  await p.close();
}

async function mixing() {
  const p = await open();
  await p.set('click', true);
  await p.press('play');
  const sounding = report.layers.filter((l) => l.attacks.length).map((l) => seconds(number(l.attacks[0].onset)));
  await p.go(Math.max(...sounding) + 1);
  check((await p.struck()).some((s) => s.side === null), 'the click does not sound');
  const rows = await p.page.locator('button[id^=silent]').count();
  const heard = async () => (await p.struck()).filter((s) => s.side !== null && s.heard).length;
  const all = await heard();
  check(all > 0, 'nothing is heard');
  for (let i = 0; i < rows; i++) await p.press(`silent${i}`);
  check(await heard() === 0, 'silent layers are heard');
  await p.press('alone0');
  check(await heard() === 0, 'a silent layer is heard because it is alone');
  await p.press('silent0');
  const alone = await heard();
  check(alone > 0 && (rows === 1 || alone < all), 'alone is not one layer');
  await p.press('alone0');
  for (let i = 1; i < rows; i++) await p.press(`silent${i}`);
  check(await heard() === all, 'not all are heard again');
  const sides = new Set((await p.struck()).map((s) => s.side).filter((s) => s !== null));
  check(rows === 1 || sides.size > 1, 'all layers stand in one place');
  for (let i = 0; i < rows; i++) await p.set(`side${i}`, '-1');
  const before = await p.page.evaluate(() => card.now);
  await p.go(2);
  check((await p.struck()).every((s) => s.side === null || s.side === -1 || s.at < before + 0.5), 'a layer does not go to its side');
  await p.close();
}

// A page that nobody looks at is woken once a second; nothing may come late.
async function hidden() {
  const p = await open();
  await p.press('play');
  await p.page.evaluate(() => {
    Object.defineProperty(document, 'hidden', { get: () => true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  await p.go(Math.min(lasts, 20), 1);
  const got = began(await p.struck(), lead), sure = Math.min(lasts, 20) - lead;
  near(onsets.filter((t) => t < sure - 1e-6), got.filter((t) => t < sure - 1e-6), 'in the background');
  await p.close();
}

async function telling() {
  const p = await open();
  await p.key('ArrowRight');
  const words = await p.text('said');
  check(/cycle \d/.test(words), `a step does not tell the cycle: ${words}`);
  check(words.split('; ').length <= 5, `a step tells too much: ${words}`);
  await p.key('Home');
  await p.key('Shift+ArrowRight');
  const met = report.realignments.find((r) => r.index > 0), called = met && (met.label || `realignment ${met.index}`);
  if (met) check((await p.text('said')).startsWith(called), `a realignment is not told as ${called}: ${await p.text('said')}`);
  for (let i = 0; i < 40; i++) await p.key('Shift+ArrowRight');
  check((await p.text('where')).includes('the end of bar'), `at the end it says ${await p.text('where')}`);
  await p.press('play');
  const said = await p.text('said');
  await p.go(3);
  check(await p.text('said') === said, 'it goes on talking while it plays');
  await p.press('play');
  await p.key('C');
  check(await p.page.locator('.together >> visible=true').count() > 0, 'C with the shift lock does nothing');
  await p.close();
}

try {
  for (const part of [throughout, pausing, tempo, looping, countingIn, mixing, hidden, telling]) await part();
} finally {
  await browser.close();
}
for (const line of wrong) console.log(`${file}: ${line}`);
console.log(wrong.length ? `${wrong.length} things do not hold` : `${file}: strikes ${onsets.length} attacks at their times, in loops, after pauses, at other tempos`);
process.exit(wrong.length ? 1 : 0);
