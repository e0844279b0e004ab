"""Trade: the reference tables and their typed loader."""
