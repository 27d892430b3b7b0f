"""The formulas of the registry by subject: their cards, and how their working is told."""
