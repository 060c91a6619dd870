"""The rules about data, one module each: what it looks for is its page in procgen/data/rules."""
