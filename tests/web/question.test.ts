import { describe, expect, it } from 'vitest'

import {
  addressOf,
  askedOf,
  conditionsOf,
  questionIn,
  tankOf,
} from '../../src/web/pages/compare/question.ts'

describe('the question of a comparison', () => {
  it('is the same again from the address it makes', () => {
    const asked = questionIn(
      '?metric=fuelFlow&setups=a,b&allUpMassKg=97.5&elevationM=640&temperatureC=-3&wingId=w&tankL=10.5&reserveL=2&fitId=f&evidence=class&excludeInterested=true&climbFitId=c&fuelFitId=d',
    )
    expect(questionIn(new URL(addressOf(asked), 'http://x').search)).toEqual(asked)
  })

  it('becomes the usual where the address makes no sense', () => {
    expect(questionIn('?metric=beauty&massClass=huge&elevationM=high&tankL=')).toEqual(
      questionIn(''),
    )
  })

  it('asks for fewer tests only where that was chosen', () => {
    expect(askedOf(questionIn(''))).toEqual(conditionsOf(questionIn('')))
    expect(askedOf(questionIn('?evidence=class&excludeInterested=true'))).toMatchObject({
      evidence: 'class',
      excludeInterested: 'true',
    })
  })

  it('keeps the tank out of what comparisons are asked', () => {
    expect(conditionsOf(questionIn('?tankL=10&reserveL=2'))).toEqual(conditionsOf(questionIn('')))
  })

  it('has a reserve only in a tank that holds more', () => {
    expect(tankOf({ tankL: null, reserveL: 2 })).toBeNull()
    expect(tankOf({ tankL: 10, reserveL: null })).toEqual({ tankL: 10 })
    expect(tankOf({ tankL: 10, reserveL: 2 })).toEqual({ tankL: 10, reserveL: 2 })
    expect(tankOf({ tankL: 2, reserveL: 2 })).toEqual({ tankL: 2 })
  })
})
