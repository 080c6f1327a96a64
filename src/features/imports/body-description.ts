import { ImportedFile } from './schema.ts'

const file = (description: string) => ({
  type: 'string',
  contentMediaType: 'text/csv',
  description,
})

const DESCRIPTIONS: Readonly<Record<ImportedFile['part'], string>> = {
  notebook: 'A notebook, alone',
  runs: 'runs.csv of a release',
  systematic: 'systematic.csv of the same release; needed beside runs',
  setups: 'setups.csv of the same release, where its set-ups are not known here',
  components: 'components.csv of the same release, where its parts are not known here',
}

/** The body of the upload in the terms of OpenAPI; it is read as a stream, so no schema checks it. */
export const requestBody = {
  content: {
    'text/csv': { schema: file('A notebook, or runs.csv of a release; its header tells which') },
    'multipart/form-data': {
      schema: {
        type: 'object',
        properties: Object.fromEntries(
          ImportedFile.shape.part.options.map((part) => [part, file(DESCRIPTIONS[part])]),
        ),
      },
    },
  },
}
