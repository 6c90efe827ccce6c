"""Weather files into hours: a farm's logger, EPW, TMY3 and TM2 (step 1). Knows no farm."""
