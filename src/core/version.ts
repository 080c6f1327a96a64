/** Version of the normalisation; stored with every result. Any change that moves a published number raises it. */
export const METHOD_VERSION = '3'

/** Version of the statistical model; part of every fit's id. Any change that moves an estimate raises it. */
export const MODEL_VERSION = '4'
