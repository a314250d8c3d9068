import { record, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import * as parts from './same-part.ts';

/** Names of parts for who hands in anything: inside the library they are asked for too often to be checked each time. */

const nameCheck = record({ layer: words(), part: words() }, 'Name the layer and the part.');

/**
 * The same text for all that belongs to one kind of part, and for nothing else: the key of the tables by part that drawings
 * take.
 *
 * @throws FretlayError for what does not name a layer and a part
 */
export function partKey(name: parts.PartName): string {
  throwOnErrors(nameCheck('name', name));
  return parts.partKey(name);
}
