import type { Mark, Picture } from '../../src/charts/picture.ts'

/** Every mark of a kind in a picture, however deep it lies. */
export function marksOf({ marks }: Pick<Picture, 'marks'>, tag: string): Mark[] {
  return marks.flatMap((mark) => inside(mark, tag))
}

/** The numbers of a mark. */
export function numberOf({ attributes }: Mark, name: string): number {
  return Number(attributes[name])
}

/** The marks of a class. */
export function ofClass(marks: readonly Mark[], name: string): Mark[] {
  return marks.filter(({ attributes }) => attributes.class === name)
}

/** All that is written in a picture. */
export function wordsOf(picture: Pick<Picture, 'marks'>): string[] {
  return marksOf(picture, 'text').map(({ children }) => String(children[0]))
}

function inside(mark: Mark, tag: string): Mark[] {
  const within = mark.children.flatMap((child) =>
    typeof child === 'string' ? [] : inside(child, tag),
  )
  return mark.tag === tag ? [mark, ...within] : within
}
