"""The reports: one module an output format, from a `Proof` to text."""
