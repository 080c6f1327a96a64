/**
 * Condition on `submission`: its current revision counts as evidence. It was not withdrawn, and no
 * moderator has set that revision aside; a correction counts again.
 */
export const SUBMISSION_COUNTS = `submission.withdrawn_at IS NULL
  AND NOT EXISTS (SELECT FROM report
                   WHERE report.submission_id = submission.id
                     AND report.revision_number = submission.current_revision
                     AND report.sets_aside)`
