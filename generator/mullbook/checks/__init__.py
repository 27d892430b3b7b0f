"""Rules with stable codes; each looks at entries and yields problems."""
