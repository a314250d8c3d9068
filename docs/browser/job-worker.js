import {
  boardPages,
  counted,
  drawPlacementSheets,
  FretlayError,
  formatIssue,
  pageToSvg,
  readJob,
  runJob,
  textOfBytes,
  toldTogether,
  worstFirst,
} from 'fretlay';

/** The worker of the page: a job and a drawing in, a layout, sheets and pages out. The page itself never waits. */

/** Searches side by side: two, as on the command line, so that both give the same layout. */
const SEARCHES = 2;
let stop = new AbortController();

onmessage = async ({ data }) => {
  if (data.type === 'stop') {
    stop.abort();
    return;
  }
  stop = new AbortController();
  try {
    postMessage({ type: 'done', ...(await run(data)) });
  } catch (error) {
    const issues =
      error instanceof FretlayError
        ? told(error.issues, data.job.unit)
        : [{ severity: 'error', text: String(error) }];
    postMessage({ type: 'refused', issues });
  }
};

async function run({ job: fields, drawing, searchWorker }) {
  // Of a page on the disk, WebKit lets a worker start further ones from an address that holds them whole, and from no other.
  const searchWorkerUrl = `data:text/javascript;charset=utf-8,${encodeURIComponent(searchWorker)}`;
  const job = readJob(JSON.stringify(fields));
  const result = await runJob(job, await textOfBytes(drawing, job.pattern.file), {
    signal: stop.signal,
    workers: SEARCHES,
    startWorker: () => new Worker(searchWorkerUrl),
    onProgress: ({ done, message }) => postMessage({ type: 'progress', done, message }),
  });
  return { ...drawn(job, result), layout: JSON.stringify(result.layout), ...words(job, result) };
}

function drawn(job, { layout, check }) {
  const facts = {
    job: 'job.json',
    design: job.design,
    unit: job.unit,
    kerf: layout.kerf,
    clearance: layout.clearance,
    drill: check.saw.hole,
    paper: job.paper.size ?? (job.unit === 'in' ? 'letter' : 'a4'),
    orientation: job.paper.orientation,
    margin: job.paper.margin,
    overlap: job.paper.overlap,
    line: job.paper.line,
  };
  const used = layout.boards.filter(({ placements }) => placements.length > 0);
  const svgs = drawPlacementSheets(used, facts);
  const sheets = used.map((board, i) => ({ board: board.id, parts: counted(board.placements.length, 'part'), svg: svgs[i] }));
  const pages = boardPages(layout, facts);
  return { sheets, pages: pages.map(printable) };
}

/** A page with its size in mm. */
function printable(page) {
  const { width, height } = page.drawing;
  return { name: page.name, width, height, svg: pageToSvg(page) };
}

/** Issues, the worst first, with their lengths in the unit of the job. */
function told(issues, unit = 'mm') {
  return worstFirst(toldTogether(issues)).map((issue) => ({ severity: issue.severity, text: formatIssue(issue, unit) }));
}

function words(job, { layout, verification, issues }) {
  const { figures } = layout;
  const boards = counted(figures.boards, 'board');
  return {
    issues: told(issues, job.unit),
    summary: `${figures.completeSets} of ${job.sets} sets on ${boards}, yield ${(100 * figures.yield).toFixed(1)} %. ${checked(verification, job.unit)}`,
  };
}

function checked({ ok, leastDistance }, unit) {
  if (!ok) return 'The check found the layout wrong; do not saw from it.';
  if (leastDistance === undefined) return 'Checked: no two parts lie near each other.';
  return `Checked: least distance ${(leastDistance / (unit === 'in' ? 25.4 : 1)).toFixed(3)} ${unit}.`;
}
