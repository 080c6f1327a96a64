import { readFileSync } from 'node:fs'

import { describe, expect, it } from 'vitest'

import { bodyOf } from '../../src/web/pages/submit/body.ts'
import type { Form } from '../../src/web/pages/submit/form.ts'
import { valuesIn } from '../../src/web/pages/submit/given.ts'
import { numbersOf, RUN_KINDS, RUN_SPECS } from '../../src/web/pages/submit/run-fields.ts'
import { formWith, n, SETUP } from './a-form.ts'

interface Shape {
  readonly type?: string
  readonly properties?: Readonly<Record<string, Shape>>
  readonly items?: Shape
  readonly oneOf?: readonly Shape[]
  readonly const?: string
  readonly enum?: readonly string[]
}

const DOCUMENT = JSON.parse(
  readFileSync(new URL('../../openapi/openapi.json', import.meta.url), 'utf8'),
) as { readonly components: { readonly schemas: Readonly<Record<string, Shape>> } }

/** Fields of the interface that the form leaves out, each with its reason. */
const LEFT_OUT: Readonly<Record<string, string>> = {}

/** Every field the interface takes; lists as *, runs by their kind. */
function fieldsOf(shape: Shape, place = ''): string[] {
  if (shape.oneOf !== undefined) {
    return shape.oneOf.flatMap((one) => {
      const kind = one.properties!.kind!
      return fieldsOf(one, place.replace(/\*$/, kind.const ?? kind.enum![0]!))
    })
  }
  if (shape.items !== undefined) return fieldsOf(shape.items, `${place}/*`)
  if (shape.properties === undefined) return [place]
  return Object.entries(shape.properties).flatMap(([name, inner]) =>
    fieldsOf(inner, `${place}/${name}`),
  )
}

/** Every field that is in a body. */
function sentBy(form: Form): string[] {
  const { body } = bodyOf(form)
  return [...valuesIn(body).keys()].map((place) =>
    place
      .replace(/^\/entries\/0\/runs\/0/, `/entries/*/runs/${body.entries[0]!.runs[0]!.kind}`)
      .replace(/^\/entries\/0/, '/entries/*')
      .replace(/\/\d+\//g, '/*/'),
  )
}

/** A form in which all is filled in that can be, with each answer of each choice in turn. */
function fullForms(): Form[] {
  const wing = {
    id: null,
    glideSource: 'measured',
    flatAreaM2: n(25),
    glideRatio: n(7),
    trimSpeedMps: n(10),
    trimAtAllUpMassKg: n(120),
    doubts: {
      flatAreaM2: n(1),
      glideRatio: n(1),
      trimSpeedMps: n(1),
      trimAtAllUpMassKg: n(1),
    },
  } as const
  return RUN_KINDS.flatMap((kind) => {
    const numbers = numbersOf(kind, 3)
    const all = Object.fromEntries(numbers.map(({ at }) => [at, n(10)]))
    const answers = RUN_SPECS[kind].choices.flatMap(({ at, choices }) =>
      choices.map(([value]) => ({ at, value })),
    )
    return [...answers, { at: 'none', value: '' }].flatMap(({ at, value }) => {
      const first = Object.fromEntries(
        RUN_SPECS[kind].choices.map((choice) => [choice.at, choice.choices.at(-1)![0]]),
      )
      const form = formWith(kind, { values: all, doubts: all, choices: { ...first, [at]: value } })
      const [entry] = form.entries
      const full: Form = {
        ...form,
        note: 'A note',
        pressureHPa: n(1000),
        relativeHumidityPct: n(50),
        windMps: n(1),
        wing,
        doubts: {
          elevationM: n(1),
          massKg: n(1),
          temperatureC: n(1),
          qnhHPa: n(1),
          stationPressureHPa: n(1),
          relativeHumidityPct: n(1),
          windMps: n(1),
        },
        entries: [
          {
            ...entry!,
            setup: { ...SETUP, drive: 'electric' },
            engineHours: n(10),
            doubts: { allUpMassKg: n(1) },
          },
        ],
      }
      return [
        full,
        { ...full, pressureKind: 'stationPressureHPa' as const },
        { ...full, wing: { ...wing, id: SETUP.id } },
      ]
    })
  })
}

describe('the field form', () => {
  it('has every field of the interface, but for those left out with a reason', () => {
    const taken = new Set(fieldsOf(DOCUMENT.components.schemas.NewSubmission!))
    const sent = new Set(fullForms().flatMap(sentBy))
    expect(taken.size).toBeGreaterThan(100)
    expect([...taken].filter((field) => !sent.has(field)).sort()).toEqual(
      Object.keys(LEFT_OUT).sort(),
    )
    expect([...sent].filter((field) => !taken.has(field))).toEqual([])
  })
})
