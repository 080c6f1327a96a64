import { readFile } from 'node:fs/promises'

import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import { normaliseRun } from '../../../src/core/normalise/run.ts'
import { startTestApp, type TestApp } from '../../support/app.ts'

let test: TestApp

beforeAll(async () => {
  test = await startTestApp()
})

afterAll(() => test.close())

describe('GET /docs/method', () => {
  it('shows every section of the method as a page with its style', async () => {
    const { text, headers } = await test.request.get('/docs/method').expect(200)
    expect(headers['content-type']).toContain('text/html')
    const source = await readFile('src/core/METHOD.md', 'utf8')
    const sections = [...source.matchAll(/^## (.+)$/gm)].map(([, title]) => title!)
    expect(sections.length).toBeGreaterThan(10)
    for (const title of sections) expect(text).toContain(`<h2>${title}</h2>`)
    await test.request
      .get('/docs/method.css')
      .expect(200)
      .expect('content-type', /text\/css/)
  })

  it('prints the worked example as the code computes it', async () => {
    const source = await readFile('src/core/METHOD.md', 'utf8')
    const { normalized } = normaliseRun({
      session: {
        site: { elevationM: 600 },
        conditions: {
          temperatureC: 25,
          qnhHPa: 1018,
          relativeHumidityPct: 50,
          airMotion: 'light',
        },
        pilot: { massKg: 95 },
        wing: {
          flatAreaM2: 26,
          glideRatio: 6.8,
          glideSource: 'measured',
          trimSpeedMps: 10.8,
          trimAtAllUpMassKg: 4.8 * 26,
        },
      },
      entry: { allUpMassKg: 135, massSource: 'weighed' },
      equipment: { drive: 'twoStroke', propellerDiameterCm: 125 },
      run: {
        kind: 'climb',
        heightGainM: 100,
        durationS: 55,
        heightSource: 'barometric',
        startHeightAboveSiteM: 50,
      },
    })
    const { value, standardUncertainty, inducedPowerW, thrustN } = normalized
    expect(source).toContain(`**${value.toFixed(3)} m/s ± ${standardUncertainty.toFixed(2)}**`)
    expect(source).toContain(`P = ${inducedPowerW!.toFixed(0)} W`)
    expect(source).toContain(`${thrustN!.toFixed(1)} N, γ`)
  })
})
