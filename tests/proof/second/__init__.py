"""A second generator of farms, from the list of fields alone, by somebody who saw no other.

`python -m tests.proof.second.run` throws farms at `check` and `build`; `.warm` edits a farm
with a full cache; `.packs` edits a farm that was handed over. All in one process, seeds fixed.
"""
