"""Text in, plain data with places out; problems in words. Knows nothing of pigments."""
