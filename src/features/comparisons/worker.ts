import { rankItems } from '../../core/comparison/rank-setups.ts'

/** Entry of the thread that ranks. */
export default rankItems
