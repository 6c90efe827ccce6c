"""How time is parted: the counts that hours, minutes and seconds are turned with."""

from __future__ import annotations

HOURS_IN_DAY = 24
MINUTES_IN_HOUR = 60
SECONDS_IN_MINUTE = 60
SECONDS_IN_HOUR = MINUTES_IN_HOUR * SECONDS_IN_MINUTE
MINUTES_IN_DAY = HOURS_IN_DAY * MINUTES_IN_HOUR
