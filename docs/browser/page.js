/** The page: takes a pattern and a job, has them laid out in a worker, shows and prints what comes back. */

const { jobWorker, searchWorker, demo } = JSON.parse(document.getElementById('built').textContent);
const byId = (id) => document.getElementById(id);
const blobUrl = (data, type) => URL.createObjectURL(new Blob([data], { type }));

// A page opened from the disk may not start a worker from a file beside it, so both workers travel inside it.
const jobWorkerUrl = blobUrl(jobWorker, 'text/javascript');
let worker;

byId('demo').addEventListener('submit', (event) => {
  event.preventDefault();
  const effort = Number(new FormData(event.target).get('effort'));
  layOut({ ...demo.job, effort }, new TextEncoder().encode(demo.pattern));
});

byId('own').addEventListener('submit', async (event) => {
  event.preventDefault();
  const fields = new FormData(event.target);
  const file = fields.get('pattern');
  const { kerf, unit, length, width, thickness, throat } = Object.fromEntries(fields);
  const board = { id: 'Board', length, width, thickness, quantity: Number(fields.get('quantity')) };
  const saw = throat.trim() === '' ? {} : { throat };
  const job = { pattern: file.name, sets: Number(fields.get('sets')), unit, kerf, saw, boards: [board] };
  layOut(job, new Uint8Array(await file.arrayBuffer()));
});

byId('stop').addEventListener('click', () => worker?.postMessage({ type: 'stop' }));
byId('print').addEventListener('click', () => window.print());

function layOut(job, drawing) {
  worker?.terminate();
  showIssues([]);
  byId('result').hidden = true;
  tell('Reading the pattern.');
  byId('stop').disabled = false;
  worker = new Worker(jobWorkerUrl);
  worker.onmessage = ({ data }) => answers[data.type](data);
  worker.onerror = ({ message }) => answers.refused({ issues: [{ severity: 'error', text: message }] });
  worker.postMessage({ type: 'run', job, drawing, searchWorker });
}

const answers = {
  progress({ done, message }) {
    byId('progress').value = done;
    tell(message);
  },
  refused({ issues }) {
    byId('stop').disabled = true;
    showIssues(issues);
    tell('Nothing was laid out.');
  },
  done({ layout, issues, summary, sheets, pages }) {
    byId('stop').disabled = true;
    byId('progress').value = 1;
    showIssues(issues);
    tell(summary);
    byId('layout').href = blobUrl(layout, 'application/json');
    byId('sheets').replaceChildren(...sheets.map(sheetFigure));
    byId('pages').replaceChildren(...pages.flatMap((page) => [pageSize(page), printedPage(page)]));
    // Last of all: Firefox prints an empty page for what follows them, be it only white space.
    document.body.append(byId('pages'));
    byId('result').hidden = false;
  },
};

const LABEL = { error: 'Error', warning: 'Warning', note: 'Note' };

/** Text of the page is only ever set as text: a name in a pattern cannot bring anything in. */
function tell(text) {
  byId('status').textContent = text;
}

function showIssues(issues) {
  byId('issues').replaceChildren(
    ...issues.map(({ severity, text }) =>
      Object.assign(document.createElement('li'), { textContent: `${LABEL[severity]}: ${text}`, className: severity }),
    ),
  );
}

function sheetFigure({ board, svg, parts }) {
  const figure = document.createElement('figure');
  const caption = document.createElement('figcaption');
  caption.textContent = `${board}: ${parts}`;
  figure.append(caption, picture(svg, `Placement sheet of board ${board} with ${parts}`));
  return figure;
}

/** A drawing as a picture: scripts inside it, if there were any, never run. */
function picture(svg, description) {
  return Object.assign(document.createElement('img'), { src: blobUrl(svg, 'image/svg+xml'), alt: description });
}

const pageName = ({ width, height }) => `paper-${Math.round(width * 10)}-${Math.round(height * 10)}`;

/** The paper, so that a page of the drawing is a page of the printer, without a margin that would scale it. */
function pageSize(page) {
  const { width, height } = page;
  const name = pageName(page);
  const style = document.createElement('style');
  style.textContent = `@page ${name} { size: ${width}mm ${height}mm; margin: 0 } .${name} { page: ${name}; width: ${width}mm; height: ${height}mm }`;
  return style;
}

function printedPage(page) {
  const image = picture(page.svg, `Page to print: ${page.name}`);
  image.className = pageName(page);
  return image;
}
