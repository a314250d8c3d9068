import { type INode, parseSync } from 'svgson';
import type { SvgElement } from './element.ts';
import type { IssueLog } from './issue-log.ts';
import { checkWellFormed, type Skeleton } from './well-formed.ts';

/** A document as a tree of elements. */
export interface SvgDocument {
  readonly root: SvgElement;
  readonly comments: readonly string[];
}

/** Element under construction: children and text are filled in as the tree is walked. */
interface Growing extends SvgElement {
  readonly children: SvgElement[];
}

/**
 * The only door to svgson: SVG text to a tree of elements. Stops the reading with an error in `log` when the text
 * is not well-formed XML or not SVG.
 */
export function readDocument(text: string, log: IssueLog): SvgDocument {
  const skeleton = checkWellFormed(text, log);
  return { root: grow(parseSync(skeleton.markup), skeleton), comments: skeleton.comments };
}

const NO_CLASSES: ReadonlySet<string> = new Set();

function classesIn(list: string | undefined): ReadonlySet<string> {
  return list === undefined ? NO_CLASSES : new Set(list.split(/\s+/).filter(Boolean));
}

/** Copies the nodes into elements without recursion, numbering them in document order as the skeleton did. */
function grow(rootNode: INode, skeleton: Skeleton): SvgElement {
  let number = 0;
  const make = (node: INode, parent: Growing | undefined): Growing => {
    const attributes = new Map<string, string>();
    for (const name of Object.keys(node.attributes)) {
      attributes.set(name, skeleton.values[Number(node.attributes[name])]);
    }
    const element: Growing = {
      name: node.name,
      attributes,
      classes: classesIn(attributes.get('class')),
      children: [],
      parent,
      position: parent?.children.length ?? 0,
      line: skeleton.lines[number],
      text: skeleton.texts.get(number) ?? '',
    };
    number++;
    parent?.children.push(element);
    return element;
  };
  const root = make(rootNode, undefined);
  const pending: { readonly node: INode; readonly parent: Growing }[] = [];
  // Last child first onto the stack, so that elements come off it in document order.
  const queue = (node: INode, parent: Growing): void => {
    for (let i = node.children.length - 1; i >= 0; i--) pending.push({ node: node.children[i], parent });
  };
  queue(rootNode, root);
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    queue(next.node, make(next.node, next.parent));
  }
  return root;
}
