/** What the reference reads of the document that /openapi.json serves. */
export interface OpenApiDocument {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, Schema>> };
}

export interface Operation {
  readonly summary?: string;
  readonly security?: readonly object[];
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly content: Content };
  readonly responses: Readonly<Record<string, { readonly description: string; readonly content?: Content }>>;
}

export type Content = Readonly<Record<string, { readonly schema?: Schema }>>;

export interface Parameter {
  readonly name: string;
  readonly in: string;
  readonly required?: boolean;
  readonly description?: string;
  readonly schema?: Schema;
}

/** JSON Schema 2020-12, as far as the schemas here use it. */
export interface Schema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly items?: Schema;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly description?: string;
  readonly default?: unknown;
  readonly format?: string;
  readonly pattern?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
}

/** The name of a schema that is referred to. */
export function refersTo({ $ref }: Schema): string | null {
  return $ref?.split("/").at(-1) ?? null;
}
