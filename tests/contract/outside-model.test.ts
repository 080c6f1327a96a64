import { describe, expect, it } from 'vitest'

import { wingPointers, withinModel } from '../../src/contract/outside-model.ts'
import { ApiProblem } from '../../src/contract/problems.ts'
import { OutOfRangeError } from '../../src/core/errors.ts'

/** What is thrown, or what comes back. */
function outcomeOf(act: () => unknown): unknown {
  try {
    return act()
  } catch (error) {
    return error
  }
}

describe('withinModel', () => {
  it('lets a result pass', () => {
    expect(withinModel({}, () => 7)).toBe(7)
  })

  it('points at the parameter that a value out of range came from', () => {
    const thrown = outcomeOf(() =>
      withinModel(wingPointers('a wing'), () => {
        throw new OutOfRangeError('glideRatio', 3.4, 4, 20)
      }),
    )
    expect(thrown).toBeInstanceOf(ApiProblem)
    expect((thrown as ApiProblem).toBody('request-1')).toMatchObject({
      status: 422,
      errors: [
        { pointer: '/wingId', detail: 'gives glideRatio = 3.4; the model holds from 4 to 20' },
      ],
    })
  })

  it('points at the figure itself where the wing is the caller’s own', () => {
    expect(wingPointers(undefined).glideRatio).toBe('/glideRatio')
  })

  it('leaves every other error alone', () => {
    const error = new TypeError('a bug')
    const thrown = outcomeOf(() =>
      withinModel({}, () => {
        throw error
      }),
    )
    expect(thrown).toBe(error)
  })
})
