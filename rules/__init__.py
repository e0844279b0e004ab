"""The rules: one module a family, one declaration a rule."""
