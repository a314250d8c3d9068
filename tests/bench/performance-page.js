// The page docs/performance.md, made from the ledger alone.

const table = (head, rows) =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');

const fixed = (digits) => (value) => value.toFixed(digits);
const [whole, tenth, hundredth] = [0, 1, 2].map(fixed);
const percent = (share) => `${tenth(100 * share)} %`;

/** The whole page as text. */
export function performancePage({
  measured,
  machine,
  importing,
  geometry,
  paper,
  memory,
  boxes,
  wholeJob,
  nesting,
}) {
  return `# How fast, and how dense

Made by \`npm run bench -- ledger\` from [performance.json](performance.json), measured on ${measured}: ${machine}.
Times of one machine say little on another, and shared machines are noisy; the ratios and growth exponents, taken side by
side in one run, are what to compare. An exponent of 1 means that twice the size takes twice the time.

## Reading a drawing

Outlines of cubics, read, resolved into parts and measured; median of several readings.

${table(
  ['drawing', 'parts', 'time'],
  importing.rows.map((row) => [`${hundredth(row.megabytes)} MB`, row.parts, `${whole(row.milliseconds)} ms`]),
)}

Growth exponent from 1 to 20 MB: ${hundredth(importing.growthExponent)}. At 1 MB, in turn with general libraries that do
less of the work:

${table(
  ['by', 'time', 'fretlay takes'],
  importing.beside.map(({ what, milliseconds, ratio }) => [
    what,
    `${whole(milliseconds)} ms`,
    `${hundredth(ratio)} times that`,
  ]),
)}

## Offsets and unions

The same outlines by fretlay (which calls clipper-lib on integers and mends its output) and by general libraries in turn;
their areas agree within 0.2 %.

${table(
  ['operation', 'outlines', 'fretlay', 'growth exponent', 'against'],
  geometry.rows.map((row) => [
    row.what,
    `${row.outlines} of ${row.pointsEach} points`,
    `${whole(row.milliseconds.fretlay)} ms`,
    hundredth(row.growthExponent),
    row.beside.map(({ name, ratio }) => `${hundredth(ratio)} times ${name}`).join(', '),
  ]),
)}

## Printing

${paper.parts} parts on ${paper.boards} boards, ${paper.pages} pages: ${tenth(paper.milliseconds / 1000)} s
(${tenth(paper.processorMilliseconds / 1000)} s of processor time), ${tenth(paper.pdfMegabytes)} MB of PDF, peak of
${paper.peakMegabytes} MB resident, of which ${paper.peakMegabytesBefore} MB before it began.

## The whole job

The lake-shore batch from the drawing to report and printed pages, with as many times its boards as it needs and a search
of ${wholeJob.rows[0].effort} thousand moves a wood. Processor time of all threads. The costs of other batch sizes, which
the report shows, are part of the drawing.

${table(
  ['sets', 'parts', 'boards', 'pages', 'laying out', 'whole job', 'complete, verified'],
  wholeJob.rows.map((row) => [
    row.sets,
    row.parts,
    row.boards,
    row.pages,
    `${tenth(row.layOutSeconds)} s`,
    `${tenth(row.processorSeconds)} s`,
    row.completeSets === row.sets && row.verified ? 'yes' : 'no',
  ]),
)}

Growth exponent over the sets: ${hundredth(wholeJob.growthExponent)}.

## Memory

Left alone, Node lets garbage lie while there is room, twice and more of what is needed, and never the same amount. So each
run is made again with less and less heap: the least of ${memory.heaps.map(whole).join(', ')} MB that it came to its end in, and
the greatest resident memory of that run, Node's own included.

${table(
  ['what', 'heap', 'resident'],
  memory.rows.map((row) => [row.what, `${whole(row.heapMegabytes)} MB`, `${whole(row.peakMegabytes)} MB`]),
)}

## True shapes against boxes

Yield of the lake-shore batch of 12 sets, at the effort above, beside that of the bounding boxes, packed by a general rectangle packer (maximal
rectangles, Jylanki 2010) with the best order of boards.

${table(
  ['species', 'true shapes', 'boxes'],
  boxes.map(({ species, shapes, boxes: boxed }) => [species, percent(shapes), percent(boxed)]),
)}

## Strips against published tables

Density in percent on open strip instances (ESICUP), ${nesting.seconds} s on ${nesting.workers} threads, median of
${nesting.seeds} seeds, every layout verified. Elkeran 2013 and Gardeyn et al. 2025 are means of published runs of tens of
minutes.

${table(
  ['instance', 'fretlay', 'Elkeran 2013', 'Gardeyn et al. 2025', 'first layout after'],
  nesting.rows.map((row) => [
    row.name,
    `${hundredth(row.density)}${row.verified ? '' : ' NOT VERIFIED'}`,
    tenth(row.elkeran2013),
    tenth(row.gardeyn2025),
    `${hundredth(row.firstComplete)} s`,
  ]),
)}
`;
}
