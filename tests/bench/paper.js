// How long the pages of a big job take to draw and to write as PDF, and how much memory: 60 boards (--boards) of 1.2 m, full.
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { boardsToPdf } from '../../dist/index.js';

const LENGTH = 1200;
const WIDTH = 180;

/** A wavy outline of 240 points about a middle, one of a few kinds, turned by its place. */
function wavy(cx, cy, kind, turn) {
  return Array.from({ length: 240 }, (_, i) => {
    const angle = (2 * Math.PI * i) / 240;
    const radius = 20 + 3 * Math.sin((3 + kind) * angle + turn);
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
  });
}

function placementOf(board, row, column) {
  const [x, y] = [30 + 50 * column, 33 + 55 * row];
  const kind = (column + row) % 6;
  const opening = wavy(x, y, kind, 0).map(([px, py]) => [x + (px - x) / 4, y + (py - y) / 4]);
  const openings = kind % 2 === 0 ? [opening] : [];
  const region = { outline: wavy(x, y, kind, board % 4), openings };
  const place = { x: 0, y: 0, rotation: 90 * (board % 4), turnedOver: false };
  return { part: `leaf ${kind}`, layer: 'Shore', set: board + 1, ...place, region, veins: [] };
}

/** @param count number of boards */
function bigLayout(count) {
  const outline = [
    [0, 0],
    [LENGTH, 0],
    [LENGTH, WIDTH],
    [0, WIDTH],
  ];
  const boards = Array.from({ length: count }, (_, board) => ({
    id: `board-${board + 1}`,
    stock: 'board',
    species: 'black cherry',
    thickness: 12,
    copies: 1,
    usable: { outline, openings: [] },
    placements: [0, 1, 2].flatMap((row) =>
      Array.from({ length: 23 }, (_, column) => placementOf(board, row, column)),
    ),
  }));
  const rules = {
    copiesPerSet: boards[0].placements.length,
    grain: 'free',
    grainTolerance: 0,
    turnOver: false,
  };
  const parts = boards.length * rules.copiesPerSet;
  const boardArea = boards.length * LENGTH * WIDTH;
  const totals = {
    boards: boards.length,
    parts,
    partArea: 0,
    boardArea,
    yield: 0,
    boardFeet: 0,
    cutLength: 0,
    openings: 0,
  };
  return {
    format: 'fretlay-layout',
    version: 1,
    unit: 'mm',
    kerf: 1,
    clearance: 0,
    edgeMargin: 0,
    sets: boards.length,
    setContents: [{ part: 'leaf', layer: 'Shore', ...rules }],
    boards,
    unplaced: [],
    // The sheets say nothing of these.
    figures: { ...totals, completeSets: boards.length, bySpecies: {} },
  };
}

/** Cuts in the order of the parts: working out a good one is no part of printing, and takes memory of its own. */
function planOf(board) {
  const facts = {
    leadIn: [],
    leadInClear: true,
    blade: 'No. 5',
    entry: 'waste',
    partFree: false,
    reason: '',
  };
  const cuts = board.placements.flatMap(({ layer, part, set, region }, placement) => {
    const name = { ...facts, placement, layer, part, set, closed: true, length: 1 };
    return [
      ...region.openings.map((line, piece) => ({ ...name, kind: 'opening', piece, line, frees: false })),
      { ...name, kind: 'outline', piece: 0, line: region.outline, frees: true },
    ];
  });
  const numbered = cuts.map((cut, i) => ({ ...cut, number: i + 1 }));
  const drilled = numbered.filter(({ kind }) => kind === 'opening');
  const holes = drilled.map(({ line, number }) => ({ at: line[0], diameter: 1.6, least: 1, cut: number }));
  const { id, species, thickness, copies } = board;
  return {
    board: id,
    species,
    thickness,
    copies,
    sections: [{ from: 0, to: LENGTH }],
    holes,
    cuts: numbered,
    cutLength: numbered.length,
    leadInLength: 0,
  };
}

/** Greatest resident memory of the process so far, MB. */
function peakMegabytes() {
  return process.resourceUsage().maxRSS / 1024;
}

/** One run, in a process of its own: a second one would find labels and memory warm. */
async function benchPaper({ count, json }) {
  const layout = bigLayout(count);
  const plans = new Map(layout.boards.map((board) => [board.id, planOf(board)]));
  const before = peakMegabytes();
  const cpu = process.cpuUsage();
  const start = performance.now();
  const options = { job: 'bench', unit: 'mm', kerf: 1, drill: 1.6, paper: 'a4', plans };
  const { pages, pdf } = await boardsToPdf(layout, options, 'bench');
  const end = performance.now();
  const { user, system } = process.cpuUsage(cpu);
  const result = {
    bench: 'paper',
    boards: count,
    parts: layout.boards.reduce((sum, { placements }) => sum + placements.length, 0),
    pages,
    milliseconds: Math.round(end - start),
    // Of all threads: what a busy machine does not blur.
    processorMilliseconds: Math.round((user + system) / 1000),
    pdfMegabytes: pdf.length / 1e6,
    peakMegabytes: Math.round(peakMegabytes()),
    peakMegabytesBefore: Math.round(before),
  };
  process.stdout.write(
    json
      ? `${JSON.stringify(result, null, 2)}\n`
      : `${result.parts} parts on ${count} boards, ${result.pages} pages: ${result.milliseconds} ms, ${result.pdfMegabytes.toFixed(1)} MB of PDF, peak of ${result.peakMegabytes} MB resident (${result.peakMegabytesBefore} before)\n`,
  );
}

const { values } = parseArgs({
  options: { boards: { type: 'string', default: '60' }, json: { type: 'boolean', default: false } },
});
await benchPaper({ count: Number(values.boards), json: values.json });
