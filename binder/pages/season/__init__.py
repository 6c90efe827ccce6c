"""The season played through: tables, calendar and the sheets of it."""
