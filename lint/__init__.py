"""Reading a draft, working it, and proofing it."""
