"""What we derive: states, traces, limit tables, procedure pages. Frozen records, no behaviour."""
