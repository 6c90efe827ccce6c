"""Turns a farm folder into a site and a ring binder that a sitter can follow."""

import sys

# Before any library is imported. Python calls the program `-m` while it looks for
# `python -m binder`; only then did Python itself put the current folder first.
if sys.argv[:1] == ["-m"]:
    from binder.safe_path import leave_out_current_folder

    leave_out_current_folder()
