"""What was likely meant, where a block can't be read, can't be played, or denies itself.

Nothing here judges; it looks for the one small change with which all that the text says holds, and says what it is.

    name.py, start_and_strum.py, unread_line.py, left_out.py    words that can't be read
    likely_move.py                                              a move that can't be made, or that a name denies
    second_reading.py                                           lines that deny each other: begin there
    thread.py, joining.py                                       the lines that are read together
    one_slip.py, edits*.py, search.py                           the changes that are tried, and in which order
    starts_near.py, steps_missing.py                            those of a start; steps that were left out
    trial.py, ready_line.py                                     whether lines hold, quickly
    weighing.py                                                 which of several is the likelier
    corrected.py, slip_finding.py, slip_words.py                the block as it was meant, and the finding that says so
    start_again.py, step_left_out.py, other_tuning.py           the same where the search has nothing to begin from
"""
