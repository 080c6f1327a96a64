/** What a setup's name is made of. */
export interface NamedParts {
  readonly powerplant: {
    readonly maker: string
    readonly model: string
    readonly tune?: string | null | undefined
  }
  readonly propeller: {
    readonly maker: string
    readonly model: string
    readonly diameterCm: number | null
  }
  readonly frame: { readonly maker: string; readonly model: string }
}

/** A setup's name for people: engine (and that it is modified), propeller with its diameter, frame. */
export function setupName({ powerplant, propeller, frame }: NamedParts): string {
  const diameter = propeller.diameterCm === null ? '' : ` ${propeller.diameterCm} cm`
  return [
    `${powerplant.maker} ${powerplant.model}${powerplant.tune === 'modified' ? ' modified' : ''}`,
    `${propeller.maker} ${propeller.model}${diameter}`,
    `${frame.maker} ${frame.model}`,
  ].join(' + ')
}
