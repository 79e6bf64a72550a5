"""One formula, written in three ways: as MathML, as plain text, and in spoken words."""
