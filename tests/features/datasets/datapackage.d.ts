/** The Frictionless library for JavaScript, as far as it is used here; it has no types of its own. */
declare module 'datapackage' {
  export interface Resource {
    readonly name: string
    readonly tabular: boolean
    /** Reads every row, checks each against its schema; with relations, foreign keys too. */
    read(options: { readonly relations: boolean }): Promise<unknown[][]>
  }

  export interface Package {
    readonly valid: boolean
    readonly errors: readonly Error[]
    readonly resources: readonly Resource[]
  }

  const frictionless: {
    readonly Package: {
      load(descriptor: object, options: { readonly basePath: string }): Promise<Package>
    }
  }
  export default frictionless
}
