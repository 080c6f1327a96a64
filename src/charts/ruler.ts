import { line, type Mark, text } from './picture.ts'
import type { Scale } from './scale.ts'

const MAJOR_PX = 9
const MINOR_PX = 5

/** A horizontal ruler with its divisions upwards and, where `downTo` is given, faint rules below. */
export function ruler(scale: Scale, at: { readonly y: number; readonly downTo?: number }): Mark[] {
  const { y, downTo } = at
  const x = (value: number) => scale.at(value)
  const rules =
    downTo === undefined
      ? []
      : scale.majors.map((value) => line([x(value), y], [x(value), downTo], 'ink-rule'))
  return [
    ...rules,
    line([x(scale.min), y], [x(scale.max), y], 'ink-axis'),
    ...scale.minors.map((value) => line([x(value), y], [x(value), y - MINOR_PX], 'ink-tick')),
    ...scale.majors.flatMap((value) => [
      line([x(value), y], [x(value), y - MAJOR_PX], 'ink-tick'),
      text(label(value, scale), {
        x: x(value),
        y: y - MAJOR_PX - 5,
        ink: 'ink-muted',
        anchor: 'middle',
      }),
    ]),
  ]
}

/** A vertical ruler with its divisions to the left. */
export function uprightRuler(
  scale: Scale,
  at: { readonly x: number; readonly rightTo: number },
): Mark[] {
  const { x, rightTo } = at
  const y = (value: number) => scale.at(value)
  return [
    ...scale.majors.map((value) => line([x, y(value)], [rightTo, y(value)], 'ink-rule')),
    line([x, y(scale.min)], [x, y(scale.max)], 'ink-axis'),
    ...scale.minors.map((value) => line([x, y(value)], [x - MINOR_PX, y(value)], 'ink-tick')),
    ...scale.majors.flatMap((value) => [
      line([x, y(value)], [x - MAJOR_PX, y(value)], 'ink-tick'),
      text(label(value, scale), {
        x: x - MAJOR_PX - 4,
        y: y(value) + 4,
        ink: 'ink-muted',
        anchor: 'end',
      }),
    ]),
  ]
}

function label(value: number, { decimals }: Scale): string {
  const shown = Number(value.toFixed(decimals))
  return `${shown < 0 ? '−' : ''}${Math.abs(shown).toFixed(decimals)}`
}
