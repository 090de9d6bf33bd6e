"""All that is tried, a row of the table each."""

from __future__ import annotations

from typing import Final

from tests.hardness import clocks, crowd, damage, faults, folds, kills, names, power
from tests.hardness.tally import Hardship

ROWS: Final = (
    Hardship("killed around each call on the folder", kills.at_each_call),
    Hardship("killed at random moments", kills.at_random),
    Hardship("command killed at each system call", crowd.command_killed_at_system_calls, only_long=True),
    Hardship("command killed at random moments", crowd.command_killed, only_long=True),
    Hardship("power cut after each call", power.at_each_call),
    Hardship("log cut at bytes of its last lines", damage.log_cut),
    Hardship("one byte flipped", damage.byte_flipped),
    Hardship("odd logs", damage.odd_logs),
    Hardship("odd states", damage.odd_states),
    Hardship("odd settings", damage.odd_settings),
    Hardship("folders, pipes and links as files", damage.no_files),
    Hardship("each call fails, once or from then on", faults.failing_call),
    Hardship("answers given while nothing is written", faults.answers_wait),
    Hardship("disk full", faults.full_disk),
    Hardship("files may not grow", faults.file_size_limited),
    Hardship("disk read-only", faults.read_only_disk),
    Hardship("rights lost", faults.rights_lost),
    Hardship("folder moved", faults.folder_moved),
    Hardship("odd moments", clocks.odd_moments),
    Hardship("odd zones", clocks.odd_zones),
    Hardship("clock running to and fro", clocks.running_anyhow),
    Hardship("programs at one folder at once", crowd.at_once),
    Hardship("app ended by signals at random moments", crowd.app_signalled, only_long=True),
    Hardship("odd names of files and folders", names.files_and_folders),
    Hardship("odd texts in files", names.texts_in_files),
    Hardship("odd texts typed", names.typed),
    Hardship("FOLD files changed by structure", folds.mutants),
    Hardship("FOLD files made to be slow", folds.slow_files, only_long=True),
)
