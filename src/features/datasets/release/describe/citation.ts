import {
  citationOf,
  DESCRIPTION,
  dayOf,
  KEYWORDS,
  LICENCE,
  type ReleaseFacts,
  TITLE,
} from '../facts.ts'

/** CITATION.cff (version 1.2.0). JSON strings are YAML strings. */
export function citationFile(facts: ReleaseFacts): string {
  const lines = {
    'cff-version': '1.2.0',
    message: 'If you use these data, please cite them as below.',
    type: 'dataset',
    title: TITLE,
    abstract: DESCRIPTION,
    version: facts.id,
    'date-released': dayOf(facts),
    license: LICENCE.name,
  }
  return [
    ...Object.entries(lines).map(([key, value]) => `${key}: ${JSON.stringify(value)}`),
    'authors:',
    '  - name: "Fairclimb contributors"',
    'keywords:',
    ...KEYWORDS.map((word) => `  - ${JSON.stringify(word)}`),
    '',
  ].join('\n')
}

/** schema.org Dataset, as JSON-LD, with the properties that DataCite's metadata ask for. */
export function jsonLd(
  facts: ReleaseFacts,
  files: readonly {
    readonly name: string
    readonly mediaType: string
    readonly sizeBytes: number
    readonly sha256: string
  }[],
) {
  return {
    '@context': 'https://schema.org',
    '@type': 'Dataset',
    name: `${TITLE}, release ${facts.id}`,
    description: DESCRIPTION,
    identifier: facts.id,
    version: facts.id,
    datePublished: dayOf(facts),
    inLanguage: 'en',
    isAccessibleForFree: true,
    license: LICENCE.path,
    citation: citationOf(facts),
    keywords: KEYWORDS,
    creator: { '@type': 'Organization', name: 'Fairclimb contributors' },
    publisher: { '@type': 'Organization', name: 'Fairclimb' },
    measurementTechnique:
      'Timed full-throttle climbs and level burns brought to a reference state; REML',
    distribution: files.map(({ name, mediaType, sizeBytes, sha256 }) => ({
      '@type': 'DataDownload',
      name,
      contentUrl: name,
      encodingFormat: mediaType.split(';')[0],
      contentSize: `${sizeBytes} B`,
      sha256,
    })),
  }
}

/** The attributes of a DataCite record (schema 4.5), for whoever registers a DOI for the release. */
export function dataCite(facts: ReleaseFacts) {
  return {
    schemaVersion: 'http://datacite.org/schema/kernel-4',
    titles: [{ title: `${TITLE}, release ${facts.id}` }],
    creators: [{ name: 'Fairclimb contributors', nameType: 'Organizational' }],
    publisher: { name: 'Fairclimb' },
    publicationYear: facts.snapshotAt.getUTCFullYear(),
    types: { resourceTypeGeneral: 'Dataset', resourceType: 'Flight tests' },
    subjects: KEYWORDS.map((subject) => ({ subject })),
    dates: [{ date: dayOf(facts), dateType: 'Issued' }],
    language: 'en',
    version: facts.id,
    rightsList: [
      {
        rights: LICENCE.title,
        rightsUri: LICENCE.path,
        rightsIdentifier: LICENCE.name,
        rightsIdentifierScheme: 'SPDX',
      },
    ],
    descriptions: [{ description: DESCRIPTION, descriptionType: 'Abstract', lang: 'en' }],
  }
}
