// served.mjs TIEOVER DIR: starts `tieover serve` on a spec in DIR and checks who is answered, and that an open page
// shows what was saved, wrong specs included. Exit 0 when all holds.
import fs from 'node:fs';
import http from 'node:http';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { spawn } from 'node:child_process';
import { chromium } from 'playwright-core';

const [tieover, dir] = process.argv.slice(2);
const wrong = [];
const check = (holds, what) => { if (!holds) wrong.push(what); };
const spec = path.join(dir, 'served.yaml');
const write = (title) => fs.writeFileSync(spec, `title: ${title}\nlayers:\n  - {name: Lock, groups: 3+2}\n  - {name: Weir, groups: 2+2}\n`);

write('First lock');
const server = spawn(tieover, ['serve', spec], { stdio: ['ignore', 'pipe', 'pipe'] });
let printed = '';
server.stderr.on('data', (d) => { printed += d; });
const address = await new Promise((found, fail) => {
  server.stdout.on('data', (d) => { const m = /http:\/\/127\.0\.0\.1:(\d+)\//.exec(d); if (m) found(m); });
  server.on('exit', () => fail(new Error(`serve ended: ${printed}`)));
});
const [url, port] = [address[0], +address[1]];

const ask = (options) => new Promise((done) => {
  const r = http.request({ host: '127.0.0.1', port, path: '/', ...options }, (a) => { a.resume(); a.on('end', () => done(a)); });
  r.on('error', (e) => done({ statusCode: 0, headers: {}, error: e.message }));
  r.end();
});
const raw = (text) => new Promise((done) => {
  const s = net.connect(port, '127.0.0.1', () => s.end(text));
  let all = '';
  s.on('data', (d) => { all += d; });
  s.on('close', () => done(all.split('\r\n')[0]));
  s.on('error', () => done('refused'));
});

let browser;
try {
  check((await ask({})).statusCode === 200, 'the page is not served');
  check((await ask({ headers: { Host: `localhost:${port}` } })).statusCode === 200, 'localhost is refused');
  for (const host of ['evil.example', `evil.example:${port}`, '127.0.0.1', `127.0.0.1:${port + 1}`, `127.0.0.1.evil.example:${port}`]) {
    check((await ask({ headers: { Host: host } })).statusCode !== 200, `host ${JSON.stringify(host)} is answered`);
  }
  for (const p of ['/index.html', '/served.yaml', '/../served.yaml', '/%2e%2e/served.yaml', '//', '/?x', '/changes/']) {
    check((await ask({ path: p })).statusCode === 404, `path ${p} is answered`);
  }
  check((await ask({ method: 'POST' })).statusCode === 405, 'POST is answered');
  for (const host of ['Host: \r\n', '']) check(!(await raw(`GET / HTTP/1.1\r\n${host}Connection: close\r\n\r\n`)).includes(' 200 '), 'no host is answered');
  check(!(await raw(`GET / HTTP/1.0\r\n\r\n`)).includes(' 200 '), 'no host is answered in HTTP/1.0');
  check(!(await raw(`GET http://evil.example/ HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nConnection: close\r\n\r\n`)).includes(' 200 '), 'a proxy request is answered');
  for (const [, list] of Object.entries(os.networkInterfaces())) {
    for (const i of list) {
      if (i.internal || i.family !== 'IPv4') continue;
      const reached = await new Promise((done) => { const s = net.connect(port, i.address, () => { s.destroy(); done(true); }); s.on('error', () => done(false)); s.setTimeout(1500, () => { s.destroy(); done(false); }); });
      check(!reached, `it listens on ${i.address}`);
    }
  }

  browser = await chromium.launch({ timeout: 180_000, executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
  const page = await browser.newPage();
  page.setDefaultTimeout(120_000);
  page.on('pageerror', (e) => wrong.push(`page error: ${e.message}`));
  page.on('console', (m) => { if (m.type() === 'error') wrong.push(`console: ${m.text()}`); });
  await page.goto(url);
  check(await page.locator('h1').first().textContent() === 'First lock', 'the page is not the spec');
  // A save keeps tempo, loop, silent layers, place and scroll.
  await page.locator('#tempo').fill('60');
  await page.locator('#felt').selectOption({ index: 1 });
  await page.locator('#silent1').click();
  await page.locator('#bars').fill('1');
  await page.locator('#bars').press('Enter');
  await page.locator('#bar').fill('2');
  await page.locator('#bar').press('Enter');
  await page.evaluate(() => scrollTo(0, 120));
  const state = () => page.evaluate(() => [document.getElementById('tempo').value, document.getElementById('felt').value, document.getElementById('loop').checked, document.getElementById('bars').value,
    document.getElementById('silent1').getAttribute('aria-pressed'), document.getElementById('where').textContent, scrollY].join(' '));
  const before = await state();
  write('Second lock');
  await page.getByRole('heading', { name: 'Second lock' }).first().waitFor({ timeout: 60_000 }).catch(() => wrong.push('the page does not reload itself'));
  check(await state() === before, `after a save the page is at ${await state()}, it was at ${before}`);
  fs.writeFileSync(spec, 'titel: Third lock\nlayers: []\n');
  await page.getByRole('heading', { name: 'cannot be read' }).waitFor({ timeout: 60_000 }).catch(() => wrong.push('a wrong spec is not shown'));
  check((await page.locator('body').textContent()).includes('titel'), 'the page does not say what is wrong');
  check(printed.includes('titel'), 'problems are not printed');
  fs.renameSync(spec, `${spec}.away`);
  await page.getByText('no such file').first().waitFor({ timeout: 60_000 }).catch(() => wrong.push('a spec that is gone is not told'));
  write('Fourth lock');
  await page.getByRole('heading', { name: 'Fourth lock' }).first().waitFor({ timeout: 60_000 }).catch(() => wrong.push('the page does not come back'));
  check(await state() === before, 'after a mistake the page is not as it was');
  page.removeAllListeners('console');
  server.removeAllListeners('exit');
  const ended = new Promise((done) => server.on('exit', done));
  server.kill('SIGINT');
  check(await ended === 0, 'serve does not end well when it is stopped');
  await page.getByText('serve has ended').waitFor({ timeout: 60_000 }).catch(() => wrong.push('the page does not say that serve has ended'));
} finally {
  if (browser) await browser.close();
  server.removeAllListeners('exit');
  server.kill('SIGINT');
}
for (const line of wrong) console.log(`serve: ${line}`);
console.log(wrong.length ? `${wrong.length} things do not hold` : 'serve: answers this machine only, and the page follows the spec');
process.exit(wrong.length ? 1 : 0);
