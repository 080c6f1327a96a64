/**
 * Condition on `submission`: its current revision counts as evidence. It was not withdrawn, and no
 * moderator has set that revision aside; a correction counts again. What is set aside is looked up once per
 * statement, not once per submission; the conditions on its names keep NOT IN from answering null.
 */
export const SUBMISSION_COUNTS = `submission.withdrawn_at IS NULL
  AND (submission.id, submission.current_revision) NOT IN (
        SELECT report.submission_id, report.revision_number FROM report
         WHERE report.sets_aside AND report.submission_id IS NOT NULL AND report.revision_number IS NOT NULL)`
