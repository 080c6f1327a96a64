import { fitEvidence } from './model.ts'

/** Entry of the worker thread: one task is one fit, so that a long fit never blocks requests. */
export default fitEvidence
