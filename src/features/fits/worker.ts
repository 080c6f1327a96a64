import { fitEvidence } from './model.ts'

/** Entry of the worker threads: one task is one fit, so that a long fit never blocks requests. */
export default fitEvidence

export { fitRobustly, lookBeside } from './model.ts'
