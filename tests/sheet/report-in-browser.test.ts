import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { estimate } from '../../src/costing/estimate.ts';
import { planAssembly } from '../../src/sawing/assembly/plan-assembly.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { amountsOf, workTime } from '../../src/sawing/time/work-time.ts';
import { drawReport } from '../../src/sheet/report/report.ts';
import { fullBoard, layoutOf } from '../sawing/boards.ts';
import { HOSTILE_NAMES, handBoard, handLayout, placed } from './hand-layout.ts';

/** Programs that are Chromium without a window, by the names systems give them. */
const BROWSERS = ['chromium-headless-shell', 'chromium', 'chromium-browser', 'google-chrome'];

function findBrowser(): string | undefined {
  return BROWSERS.find((program) => {
    try {
      execFileSync(program, ['--version'], { stdio: 'ignore' });
      return true;
    } catch {
      return false;
    }
  });
}

const browser = findBrowser();

/** The document as the browser has it after loading, and what it wrote to its log. */
function load(page: string, width = 1200): { dom: string; log: string } {
  const folder = mkdtempSync(path.join(tmpdir(), 'report-'));
  try {
    const file = path.join(folder, 'report.html');
    writeFileSync(file, page);
    const log = path.join(folder, 'log.txt');
    const script = `"$0" --no-sandbox --disable-gpu --enable-logging=stderr --window-size=${width},900 --dump-dom "$1" 2> "$2"; cat "$2" | grep CONSOLE >&2 || true`;
    const dom = execFileSync('sh', ['-c', script, browser ?? '', `file://${file}`, log], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const seen = execFileSync('sh', ['-c', 'grep CONSOLE "$0" || true', log], { encoding: 'utf8' });
    return { dom, log: seen };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A report with all its tables. */
function workReport(unit: 'mm' | 'in'): string {
  const layout = layoutOf(fullBoard());
  const pattern = { file: 'none.svg', scale: 1, tolerance: 0.01, layers: [] };
  const cutPlan = planCuts(layout);
  const assembly = planAssembly(pattern, { layers: {} });
  const time = workTime(amountsOf(cutPlan, assembly, 1));
  const costs = estimate({ layout, stock: [], plan: cutPlan, assembly, time });
  const work = { pattern, cutPlan, assembly, estimate: costs, batchSizes: [] };
  return drawReport(layout, { job: 'tables', unit, work });
}

/** The page with a program that measures it: the page itself allows no script. */
function measured(page: string, program: string): string {
  return page.replace(/<meta http-equiv[^>]*>/, '').replace('</body>', `<script>${program}</script></body>`);
}

describe.skipIf(browser === undefined)('the report in a real browser', () => {
  test('runs nothing that a name brought in, shows the names as text and logs no error', () => {
    const region = handBoard().placements[0].region;
    const boards = HOSTILE_NAMES.map((name) =>
      handBoard({ id: name, species: name, placements: [placed({ layer: name, part: name, region })] }),
    );
    const unplaced = HOSTILE_NAMES.map((name) => ({ layer: name, part: name, set: 1, why: name }));
    const issues = HOSTILE_NAMES.map((name) => ({ kind: 'x', severity: 'warning', message: name }) as const);
    const page = drawReport(handLayout({ boards, unplaced }), { job: 'hostile', unit: 'mm', issues });
    const { dom, log } = load(page);
    expect(log).toBe('');
    expect(dom).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    for (const tag of ['<script', '<img', '<b>']) expect(dom).not.toContain(tag);
    // One picture for each board and a sample for each wood: no name ended a drawing or the page early.
    expect(dom.match(/<svg /g)?.length).toBe(2 * HOSTILE_NAMES.length);
    expect(dom.match(/Before you saw/g)?.length).toBe(1);
  }, 60_000);

  test('on the screen of a phone a reason takes a few lines, not a line for each of its words', () => {
    const page = workReport('mm');
    const measuring = `
      const all = [...document.querySelectorAll('td')].filter((cell) => cell.textContent.split(' ').length > 6);
      const lines = all.map((cell) => Math.round(cell.clientHeight / parseFloat(getComputedStyle(cell).lineHeight)));
      document.title = [innerWidth, all.length, Math.max(...lines)].join(' ');`;
    const [, width, cells, lines] =
      load(measured(page, measuring), 390).dom.match(/<title>(\d+) (\d+) (\d+)</) ?? [];
    expect(Number(width)).toBe(390);
    expect(Number(cells)).toBeGreaterThan(5);
    expect(Number(lines)).toBeLessThanOrEqual(6);
  }, 60_000);

  test('on the screen of a tablet no table has to be pushed aside', () => {
    const measuring = `
      const all = [...document.querySelectorAll('.wide')];
      const cut = all.filter((each) => each.scrollWidth > each.clientWidth);
      document.title = [innerWidth, all.length, cut.length].join(' ');`;
    const { dom } = load(measured(workReport('in'), measuring), 768);
    const [, width, tables, cut] = dom.match(/<title>(\d+) (\d+) (\d+)</) ?? [];
    expect(Number(width)).toBe(768);
    expect(Number(tables)).toBeGreaterThan(5);
    expect(Number(cut)).toBe(0);
  }, 60_000);
});
