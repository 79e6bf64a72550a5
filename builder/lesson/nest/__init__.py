"""How nests of series and parallel groups are taught."""
