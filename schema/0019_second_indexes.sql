-- Whoever asks about one joint of a large logbook reads what an index leads to, and no more. Where the
-- disk changed a letter of the index, lines would be missing, or stand under another joint, without a word.
-- So each index that lines of a joint or a wrench, or the strike of a line, are found by has a second one, which has to
-- lead to the same lines (src/logbook/second_indexes.h). Applied inside one transaction by the program; see
-- DEVELOPERS.md.

CREATE INDEX disposition_by_joint_again ON disposition (joint_code, entry_id);
CREATE INDEX finding_by_position_again ON finding (joint_code, position, entry_id);
CREATE INDEX joint_by_code_again ON joint (code, entry_id);
CREATE INDEX photograph_by_joint_again ON photograph (joint_code, entry_id);
CREATE INDEX pull_by_position_again ON pull (joint_code, position, entry_id);
CREATE INDEX recheck_by_joint_again ON recheck (joint_code, entry_id);
CREATE INDEX removal_by_joint_again ON removal (joint_code, entry_id);
CREATE INDEX renewal_by_joint_again ON renewal (joint_code, entry_id);
CREATE INDEX specification_by_joint_again ON specification (joint_code, entry_id);
CREATE INDEX strike_by_struck_again ON strike (struck_id);
CREATE INDEX stripe_by_joint_again ON stripe (joint_code, entry_id);
CREATE INDEX tightening_by_joint_again ON tightening (joint_code, entry_id);
CREATE INDEX wrench_by_name_again ON wrench (name, entry_id);
