import { realpath } from 'node:fs/promises';
import path from 'node:path';
import { drawingsOf, type Job, readRack } from '../index.ts';
import { readText } from './files.ts';

/** The other files a job names: their texts by the name as written, and where the rack lies. */
export interface JobFiles {
  readonly texts: Readonly<Record<string, string>>;
  /** Path of the rack itself where a link leads to it, for it is replaced; undefined when the job names none. */
  readonly rack: string | undefined;
  /** Paths of all of them. */
  readonly paths: readonly string[];
}

/** A file that a job or a rack names, as it was read. */
interface NamedFile {
  readonly path: string;
  readonly text: string;
}

/** Reads the pattern of a job, whose name is relative to the job. */
export function readPatternFile(job: Job, jobFile: string): Promise<NamedFile> {
  return readNamed(job.pattern.file, 'pattern', jobFile);
}

async function readNamed(name: string, field: string, beside: string): Promise<NamedFile> {
  const file = path.resolve(path.dirname(beside), name);
  return { path: file, text: await readText(file, `"${field}" of ${path.basename(beside)}`) };
}

/** Reads the rack and the drawings of boards; names in a job are relative to it, names in a rack to the rack. */
export async function readJobFiles(job: Job, jobFile: string): Promise<JobFiles> {
  const texts: Record<string, string> = {};
  const paths: string[] = [];
  const readAll = async (names: readonly string[], beside: string, field: string) => {
    for (const name of names) {
      const file = await readNamed(name, field, beside);
      texts[name] = file.text;
      paths.push(file.path);
    }
  };
  await readAll(drawingsOf([...job.boards, ...job.forSale]), jobFile, 'drawing');
  if (job.rack === undefined) return { texts, rack: undefined, paths };
  const rack = path.resolve(path.dirname(jobFile), job.rack);
  await readAll([job.rack], jobFile, 'rack');
  await readAll(drawingsOf(readRack(texts[job.rack], job.rack).boards), rack, 'drawing');
  return { texts, rack: await realpath(rack), paths };
}
