"""What binary arithmetic leaves of a number: less than anybody could measure."""

from __future__ import annotations

# Of a share, a whole number, a length or a current after one or two steps: 8 x 75 cfm are 600
# cfm, and 100 ft written in meters are still 100 ft.
NOISE = 1e-9
# Of an hour, a step or a scoop after many: thirds of an hour that are added up.
TRACE = 1e-6
