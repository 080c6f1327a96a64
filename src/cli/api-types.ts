import openapiTS, { astToString, type OpenAPI3 } from 'openapi-typescript'

const HEAD =
  '// Written by `npm run openapi` from openapi/openapi.json; a test fails when it is stale.\n'

/** The types of every call and answer, for the pages: src/web/api/types.ts. */
export async function apiTypes(document: string): Promise<string> {
  const syntax = await openapiTS(JSON.parse(document) as OpenAPI3, { alphabetize: true })
  return `${HEAD}\n${astToString(syntax)}`
}
