import { z } from 'zod';
import { nearestName } from '../issues/nearest-name.ts';

/** The field a person meant when a JSON file has one that its format does not know. */

/** A node of a JSON Schema, as far as it is walked here. */
export interface SchemaNode {
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: SchemaNode | boolean;
  readonly items?: SchemaNode | boolean;
  readonly prefixItems?: readonly SchemaNode[];
  readonly anyOf?: readonly SchemaNode[];
  /** Of a table whose fields are all alike: the names they may have. */
  readonly propertyNames?: { readonly enum?: readonly string[] };
}

/** The known field that looks most like a misspelt one at a place of the file; undefined when none does. */
export function likeliestField(
  schema: z.ZodType,
  path: readonly PropertyKey[],
  name: string,
): string | undefined {
  return nearestName(name, knownFields(schema, path));
}

/** The fields that the format knows at a place of the file, of all forms the value there may have. */
export function knownFields(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  return [...new Set(fieldsAt([schemaNode(schema)], path))];
}

/**
 * The fields of a value that do not go with one of them, where the value may have several forms: those that the form with
 * that field does not know.
 */
export function fieldsNotBeside(
  schema: z.ZodType,
  path: readonly PropertyKey[],
  name: string,
  fields: readonly string[],
): string[] {
  const form = nodesAt([schemaNode(schema)], path).find(({ properties = {} }) =>
    Object.hasOwn(properties, name),
  );
  return fields.filter((field) => !Object.hasOwn(form?.properties ?? {}, field));
}

const NODES = new WeakMap<z.ZodType, SchemaNode>();

/** A schema as a node to walk from, made once: reading a job takes a tenth of that. */
export function schemaNode(schema: z.ZodType): SchemaNode {
  const known =
    NODES.get(schema) ?? (z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as SchemaNode);
  NODES.set(schema, known);
  return known;
}

/** Names of the fields that the format knows at a place: of all forms the value there may have. */
function fieldsAt(nodes: readonly SchemaNode[], path: readonly PropertyKey[]): string[] {
  return nodesAt(nodes, path).flatMap(({ properties, propertyNames }) => [
    ...Object.keys(properties ?? {}),
    ...(propertyNames?.enum ?? []),
  ]);
}

/** All forms that the value at a place may have. */
function nodesAt(nodes: readonly SchemaNode[], path: readonly PropertyKey[]): SchemaNode[] {
  const all = nodes.flatMap(formsOf);
  if (path.length === 0) return all;
  const [key, ...rest] = path;
  return nodesAt(
    all.flatMap((node) => stepsInto(node, key)),
    rest,
  );
}

/** A node and all forms that it may have. */
export function formsOf(node: SchemaNode): SchemaNode[] {
  return [node, ...(node.anyOf ?? []).flatMap(formsOf)];
}

/** What a field or an item of a node may be. */
export function stepsInto(node: SchemaNode, key: PropertyKey): SchemaNode[] {
  const { properties = {}, additionalProperties, items, prefixItems = [] } = node;
  if (typeof key === 'number') return [prefixItems[key], items].filter(isNode);
  const name = String(key);
  return [Object.hasOwn(properties, name) ? properties[name] : additionalProperties].filter(isNode);
}

function isNode(node: SchemaNode | boolean | undefined): node is SchemaNode {
  return typeof node === 'object';
}
