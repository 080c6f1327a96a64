import multipart from '@fastify/multipart'
import type { FastifyInstance, FastifyRequest } from 'fastify'

import { ApiProblem } from '../../contract/problems.ts'
import type { Upload } from './csv/sheet.ts'
import { ImportedFile } from './schema.ts'

/** All files of a request together [bytes]. */
export const MAX_UPLOAD_BYTES = 33_554_432

const PARTS = ImportedFile.shape.part.options

/** Lets the routes registered after it take CSV, as the whole body or as parts. */
export async function takeUploads(app: FastifyInstance): Promise<void> {
  app.addContentTypeParser('text/csv', { parseAs: 'buffer' }, (_request, body, done) =>
    done(null, body),
  )
  await app.register(multipart, {
    throwFileSizeLimit: true,
    limits: { fileSize: MAX_UPLOAD_BYTES, files: PARTS.length, fields: 0 },
  })
}

/** The files of a request, in the order they came. */
export async function uploadsOf(request: FastifyRequest): Promise<Upload[]> {
  if (request.isMultipart()) return partsOf(request)
  const { body } = request
  if (Buffer.isBuffer(body)) return [{ bytes: body }]
  throw new ApiProblem('unsupported-media-type', {
    detail: 'Send text/csv, or multipart/form-data with a file per part.',
  })
}

async function partsOf(request: FastifyRequest): Promise<Upload[]> {
  const uploads: Upload[] = []
  let size = 0
  for await (const part of request.files()) {
    const bytes = await part.toBuffer()
    size += bytes.length
    refusePart(part.fieldname, uploads)
    if (size > MAX_UPLOAD_BYTES) throw tooLarge()
    uploads.push({ part: part.fieldname, bytes })
  }
  if (uploads.length > 0) return uploads
  throw refused('', `A file is needed: ${PARTS.join(', ')}.`)
}

function refusePart(name: string, before: readonly Upload[]): void {
  if (!(PARTS as readonly string[]).includes(name)) {
    throw refused(`/${name}`, `There is no such part; parts are ${PARTS.join(', ')}.`)
  }
  if (before.some(({ part }) => part === name)) throw refused(`/${name}`, 'Is given twice.')
}

function refused(pointer: string, detail: string): ApiProblem {
  return new ApiProblem('invalid-request', { errors: [{ pointer, detail }] })
}

function tooLarge(): ApiProblem {
  return new ApiProblem('payload-too-large', {
    detail: `All files together may have ${MAX_UPLOAD_BYTES} bytes.`,
  })
}
