import { z } from 'zod'

/** Stated standard uncertainties (k = 1) of the named fields, each in the unit of its field. */
function stated(names: readonly string[]) {
  const shape = Object.fromEntries(names.map((name) => [name, z.number().positive().optional()]))
  return z
    .strictObject(shape)
    .describe(
      'Stated standard uncertainties (k = 1), each in the unit of the field whose name it bears; otherwise the documented defaults hold',
    ) as unknown as z.ZodType<Readonly<Record<string, number>>>
}

/**
 * An object some of whose fields were measured and may have a stated uncertainty beside them.
 *
 * @param shape fields of the object
 * @param names its measured fields; an uncertainty of a field that is not given is refused
 */
export function measured<S extends z.core.$ZodLooseShape, const N extends keyof S & string>(
  shape: S,
  names: readonly N[],
) {
  return z
    .strictObject({ ...shape, uncertainty: stated(names).optional() })
    .superRefine((value, context) => {
      const fields: Readonly<Record<string, unknown>> = value
      for (const name of Object.keys(fields.uncertainty ?? {})) {
        if (fields[name] !== undefined || !(names as readonly string[]).includes(name)) continue
        context.addIssue({
          code: 'custom',
          path: ['uncertainty', name],
          message: `States the uncertainty of ${name}, which is not given`,
        })
      }
    })
}
